import type { BrowserContext } from 'playwright-core'
import { GRADER } from '../account.ts'

/** The processor is so many times slower than this machine's. */
export const THROTTLE = 4
export const PATIENCE_MS = 60_000

/** Signs in, gets the app and the day's list onto the phone, and takes the network away. */
export async function bringDown(phone: BrowserContext, origin: string): Promise<void> {
  await phone.request.post(`${origin}/api/session`, { data: GRADER, headers: { origin } })
  const page = await phone.newPage()
  page.setDefaultTimeout(PATIENCE_MS)
  await page.goto(`${origin}/desk/grader`)
  await page.getByText(/^List of/).waitFor()
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready
  })
  await phone.setOffline(true)
  await page.goto(`${origin}/grade/start`)
  await page.getByRole('button', { name: /open the day$/ }).click()
  await page.getByLabel('Roster number').waitFor()
  await page.close()
}
