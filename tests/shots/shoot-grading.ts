import fs from 'node:fs'
import path from 'node:path'
import { visitRunning, visitStart } from '../e2e/grading-states.ts'
import { FOLDER, type Session } from './shoot.ts'

/** How a phone is held, and how large its owner writes, in percent. */
const HOLDS = [
  { width: 390, height: 844, text: 100 },
  { width: 320, height: 568, text: 100 },
  { width: 844, height: 390, text: 100 },
  { width: 390, height: 844, text: 200 },
]

/** Grades somebody without a booking on a phone, and takes a picture of every state in every hold. */
export async function shootGrading({ browser, url, account, password }: Omit<Session, 'role' | 'things' | 'only'>) {
  const phone = await browser.newContext({
    hasTouch: true,
    isMobile: true,
    reducedMotion: 'reduce',
    serviceWorkers: 'block',
  })
  const page = await phone.newPage()
  const answer = await page.request.post(`${url}/api/session`, {
    data: { name: account, password },
    headers: { origin: url },
  })
  if (!answer.ok()) throw new Error(`${account} cannot sign in: ${answer.status()}`)
  const folder = path.join(FOLDER, 'grading')
  fs.mkdirSync(folder, { recursive: true })
  const visit = async (state: string) => {
    for (const { width, height, text } of [...HOLDS, HOLDS[0]!]) {
      await page.setViewportSize({ width, height })
      await page.evaluate((size) => Object.assign(document.documentElement.style, { fontSize: `${size}%` }), text)
      await page.screenshot({ path: path.join(folder, `${state}-${width}-${text}.png`) })
    }
    console.log(`grading: ${state}`)
  }
  await page.goto(`${url}/grade/start`)
  await visitStart(page, visit)
  await visitRunning(page, visit)
  await phone.close()
}
