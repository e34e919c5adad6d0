import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { createContext } from '../../server/context/create-context.ts'
import { mailRounds } from '../../server/mail/services/mail-rounds.ts'
import { axeViolations, openBrowser, openPage, screens } from '../support/browser.ts'
import { PASSWORD } from '../support/build-test-app.ts'
import { type MailServer, startMailServer } from '../support/mail-server.ts'
import { codeIn } from '../support/mail-world.ts'
import { buildWorld, NOW, type World } from './world.ts'

let server: MailServer
let world: World
let browser: Browser
const clock = { now: new Date(NOW) }
const faults: unknown[] = []
let round: () => Promise<void>

beforeAll(async () => {
  server = await startMailServer()
  const mail = server.post()
  world = await buildWorld({ mail })
  const context = createContext({ db: world.app.db, clock: () => clock.now, timeZone: 'America/New_York', mail })
  round = mailRounds(context, (error) => faults.push(error))
  await world.app.signedIn({ name: 'clerk' })
  await world.app.signedIn({ name: 'admin', roles: ['administrator'] })
  browser = await openBrowser()
})
afterAll(async () => {
  await browser?.close()
  await world?.close()
  await server?.close()
})

async function openAt(name: string, address: string, screen: keyof typeof screens): Promise<Page> {
  const page = await openPage(browser, 'about:blank', screen)
  await page.clock.setFixedTime(new Date(NOW))
  await page.goto(world.url + address)
  await page.getByLabel('Name').fill(name)
  await page.getByLabel('Password').fill(PASSWORD)
  await page.keyboard.press('Enter')
  return page
}

const mailOf = (page: Page) =>
  page.locator('section').filter({ has: page.getByRole('heading', { name: 'Mail', exact: true }) })

async function picture(page: Page, name: string): Promise<void> {
  const folder = process.env.PICTURES
  if (folder) await page.screenshot({ path: `${folder}/${name}.png`, fullPage: true })
}

async function axeInEveryTheme(page: Page): Promise<string[]> {
  const found: string[] = []
  for (const theme of ['light', 'dark', 'sun']) {
    await page.evaluate((chosen) => (document.documentElement.dataset.theme = chosen), theme)
    for (const violation of await axeViolations(page)) found.push(`${theme}: ${violation}`)
  }
  return found
}

/** Gives an address, takes the code from the mail, and types it. */
async function confirm(page: Page, address: string, name: string): Promise<void> {
  const part = mailOf(page)
  await part.getByRole('button', { name: 'Give a mail address' }).click()
  await part.getByLabel('Mail address').fill(address)
  await part.getByLabel('Password, to be sure it is you').fill(PASSWORD)
  await part.getByRole('button', { name: 'Send a code there' }).click()
  await part.getByLabel('Code from the mail').waitFor()
  await picture(page, `${name}-code`)
  expect(await axeInEveryTheme(page)).toEqual([])
  await round()
  // The address before is told of the change in the same round.
  const code = codeIn(server.received.splice(0).find(({ to }) => to.includes(address))!)
  await part.getByLabel('Code from the mail').fill(code === '00000000' ? '11111111' : '00000000')
  await page.keyboard.press('Enter')
  await part.getByText('This is not the code of the latest mail.').waitFor()
  await part.getByLabel('Code from the mail').fill(`${code.slice(0, 4)} ${code.slice(4)}`)
  await page.keyboard.press('Enter')
  await part.getByText('Mail goes to').waitFor()
}

it.each(['desktop', 'phone'] as const)(
  'somebody gives an address, confirms it, chooses, and takes it back (%s)',
  async (screen) => {
    const page = await openAt('clerk', '/account', screen)
    await confirm(page, `clerk-${screen}@unit.example`, `account-${screen}`)
    const part = mailOf(page)
    await part.getByLabel('Bookings and due days').selectOption('never')
    await expect.poll(() => part.getByLabel('Bookings and due days').isEnabled()).toBe(true)
    await part.getByLabel('Bookings and due days').selectOption('daily')
    await expect.poll(() => part.getByLabel('Bookings and due days').isEnabled()).toBe(true)
    await picture(page, `account-${screen}-choices`)
    expect(await axeInEveryTheme(page)).toEqual([])
    await page.reload()
    expect(await mailOf(page).getByLabel('Bookings and due days').inputValue()).toBe('daily')
    await mailOf(page).getByRole('button', { name: 'Stop all mail' }).click()
    await page.getByRole('button', { name: 'Remove the address' }).click()
    await mailOf(page).getByRole('button', { name: 'Give a mail address' }).waitFor()
    await page.close()
  },
)

it('an administrator sends a test, and sees what was given up, tries again and drops it', async () => {
  const page = await openAt('admin', '/account', 'desktop')
  await confirm(page, 'admin@unit.example', 'admin')
  await page.goto(`${world.url}/mail`)
  await page.getByRole('button', { name: 'Send a test mail to my address' }).click()
  await page.getByText('is in the queue').waitFor()
  server.refuse.content.push('554 5.7.1 Looks unwanted')
  await round()
  await page.reload()
  await page.getByRole('button', { name: 'Try again: admin' }).waitFor()
  await picture(page, 'mail-desktop')
  expect(await axeInEveryTheme(page)).toEqual([])
  await page.setViewportSize(screens.phone)
  await picture(page, 'mail-phone')
  await page.setViewportSize(screens.desktop)
  await page.getByRole('button', { name: 'Try again: admin' }).click()
  await page.getByText('Nothing is undelivered.').waitFor()
  await round()
  expect(server.received.splice(0).map(({ mail }) => mail.subject)).toEqual(['Reviewstand: a test mail'])
  await page.getByRole('button', { name: 'Send a test mail to my address' }).click()
  server.refuse.sender.push('530 5.7.0 Sign in first')
  await page.getByText('is in the queue').waitFor()
  await round()
  await page.reload()
  await page.getByText('530 5.7.0 Sign in first').waitFor()
  await picture(page, 'mail-stuck')
  await page.close()
})

it('a mail reads well, light and dark, on a phone, and asks nothing of anybody', async () => {
  const leader = await world.app.signedIn({ name: 'lead', roles: ['leader'], unitId: world.platoonId })
  const coach = await world.app.signedIn({
    name: 'coach',
    roles: ['sponsor', 'office'],
    soldierId: world.soldierOf.sponsor,
  })
  for (const [client, name] of [
    [leader, 'lead'],
    [coach, 'coach'],
  ] as const) {
    await client.put('/api/account/mail/address', { address: `${name}@unit.example`, password: PASSWORD }, 200)
    clock.now = new Date(clock.now.getTime() + 1_800_000)
    await round()
    const code = codeIn(server.received.splice(0).find(({ to }) => to.includes(`${name}@unit.example`))!)
    await client.post('/api/account/mail/confirm', { code }, 200)
  }
  // Monday, seven in the morning where the unit is.
  clock.now = new Date('2026-06-22T11:00:00Z')
  await round()
  expect(faults).toEqual([])
  const weeks = server.received.filter(({ mail }) => mail.subject === 'Reviewstand: your week from Mon 22 June 2026')
  expect(weeks.map(({ to }) => to[0]).sort()).toEqual(['coach@unit.example', 'lead@unit.example'])
  for (const { mail, to } of weeks) {
    for (const colorScheme of ['light', 'dark'] as const) {
      const context = await browser.newContext({ colorScheme, viewport: screens.phone })
      const page = await context.newPage()
      const asked: string[] = []
      page.on('request', (request) => asked.push(request.url()))
      await page.setContent(mail.html || '')
      expect(asked).toEqual([])
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(screens.phone.width)
      const [ground] = await page.evaluate(() => [matchMedia('(prefers-color-scheme: dark)').matches])
      expect(ground).toBe(colorScheme === 'dark')
      await picture(page, `letter-${to[0]!.split('@')[0]}-${colorScheme}`)
      await context.close()
    }
  }
})
