import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, beforeEach, expect, it } from 'vitest'
import { codeOf, setUpApp } from '../support/authenticator-app.ts'
import { axeViolations, openBrowser, openPage, type screens } from '../support/browser.ts'
import { PASSWORD } from '../support/build-test-app.ts'
import { buildWorld, NOW, type World } from './world.ts'

let world: World
let browser: Browser
let url: string
let made = 0
beforeAll(async () => {
  world = await buildWorld()
  // Passkeys are made for a name, not for an address of numbers.
  url = world.url.replace('127.0.0.1', 'localhost')
  browser = await openBrowser()
})
afterAll(async () => {
  await browser?.close()
  await world?.close()
})
beforeEach(() => {
  world.app.clock.now = new Date(NOW)
})

const later = (minutes: number) => {
  world.app.clock.now = new Date(world.app.clock.now.getTime() + minutes * 60_000)
}

const somebody = async (roles: string[]) => {
  made += 1
  const name = `keeper-${made}`
  return { name, client: await world.app.signedIn({ name, roles }) }
}

async function openAt(address: string, screen: keyof typeof screens): Promise<Page> {
  const page = await openPage(browser, 'about:blank', screen)
  await page.clock.setFixedTime(new Date(NOW))
  await page.goto(`${url}${address}`)
  return page
}

async function signIn(page: Page, name: string): Promise<void> {
  await page.getByLabel('Name', { exact: true }).fill(name)
  await page.getByLabel('Password', { exact: true }).fill(PASSWORD)
  await page.getByRole('button', { name: 'Sign in', exact: true }).click()
}

async function axeInEveryTheme(page: Page): Promise<string[]> {
  const found: string[] = []
  for (const theme of ['dark', 'sun', 'light']) {
    await page.evaluate((chosen) => (document.documentElement.dataset.theme = chosen), theme)
    for (const violation of await axeViolations(page)) found.push(`${theme}: ${violation}`)
  }
  return found
}

const picture = async (page: Page, name: string) => {
  const folder = process.env.PICTURES
  if (folder) await page.screenshot({ path: `${folder}/${name}.png`, fullPage: true })
}

const part = (page: Page) =>
  page.locator('section').filter({ has: page.getByRole('heading', { name: 'Second factor', exact: true }) })

it.each(['desktop', 'phone'] as const)(
  'an app is set up, printed codes with it, and asked for (%s)',
  async (screen) => {
    const { name } = await somebody(['office'])
    const page = await openAt('/account', screen)
    await signIn(page, name)
    await part(page).getByText('You have none.').waitFor()
    await part(page).getByRole('button', { name: 'Set up an authenticator app' }).click()
    const key = (await part(page).locator('.factor-key').textContent())!.replaceAll(' ', '')
    await part(page)
      .getByRole('img', { name: /QR code/ })
      .waitFor()
    await picture(page, `${screen}-app`)
    expect(await axeInEveryTheme(page)).toEqual([])
    await part(page).getByLabel('The code it shows now').fill('000000')
    await part(page).getByRole('button', { name: 'Set it up' }).click()
    await part(page)
      .getByText(/not what the app should show now/)
      .waitFor()
    await part(page).getByLabel('The code it shows now').fill(codeOf(key, world.app.clock.now))
    await part(page).getByRole('button', { name: 'Set it up' }).click()
    // In print the heading of its part is left out, so they are found without it.
    const codes = page.locator('.recovery-codes code')
    await codes.first().waitFor()
    expect(await codes.count()).toBe(10)
    const code = (await codes.first().textContent())!
    await picture(page, `${screen}-codes`)
    expect(await axeInEveryTheme(page)).toEqual([])
    await page.emulateMedia({ media: 'print' })
    expect(await page.getByRole('heading', { name: 'Calendar' }).isVisible()).toBe(false)
    expect(await codes.first().isVisible()).toBe(true)
    await page.emulateMedia({ media: null })
    await part(page).getByRole('button', { name: 'I have them' }).click()
    await part(page).getByText('10 recovery codes left').waitFor()
    await picture(page, `${screen}-factors`)
    expect(await page.content()).not.toContain(code)

    await page.context().clearCookies()
    later(1)
    await page.goto(`${url}/account`)
    await signIn(page, name)
    await page.getByRole('heading', { name: 'Now your second factor.' }).waitFor()
    await picture(page, `${screen}-second-step`)
    expect(await axeInEveryTheme(page)).toEqual([])
    await page.getByLabel('Code').fill('000000')
    await page.getByRole('button', { name: 'Sign in', exact: true }).click()
    await page.getByText(/This code is not right/).waitFor()
    await page.getByLabel('Code').fill(codeOf(key, world.app.clock.now))
    await page.getByRole('button', { name: 'Sign in', exact: true }).click()
    await part(page).getByText('10 recovery codes left').waitFor()
    await page.context().close()
  },
)

it('a passkey is added, is the second step, signs in alone, and is taken away', async () => {
  const { name } = await somebody(['office'])
  const page = await openAt('/account', 'phone')
  const device = await page.context().newCDPSession(page)
  await device.send('WebAuthn.enable')
  await device.send('WebAuthn.addVirtualAuthenticator', {
    options: {
      protocol: 'ctap2',
      transport: 'internal',
      hasResidentKey: true,
      hasUserVerification: true,
      isUserVerified: true,
      automaticPresenceSimulation: true,
    },
  })
  await signIn(page, name)
  await part(page).getByRole('button', { name: 'Add a passkey' }).click()
  await part(page).getByLabel('Name of the passkey').fill('Field phone')
  await picture(page, 'phone-passkey')
  await part(page).getByRole('button', { name: 'Add it' }).click()
  await part(page).getByRole('button', { name: 'I have them' }).click()
  await part(page).getByText('Field phone').first().waitFor()

  await page.context().clearCookies()
  await page.goto(`${url}/account`)
  await signIn(page, name)
  await page.getByRole('button', { name: 'Use a passkey' }).waitFor()
  await picture(page, 'phone-passkey-step')
  expect(await axeInEveryTheme(page)).toEqual([])
  await page.getByRole('button', { name: 'Use a passkey' }).click()
  await part(page).getByText('Field phone').first().waitFor()

  await page.context().clearCookies()
  await page.goto(`${url}/account`)
  await page.getByRole('button', { name: 'Sign in with a passkey' }).waitFor()
  await picture(page, 'phone-sign-in')
  await page.getByRole('button', { name: 'Sign in with a passkey' }).click()
  await part(page).getByText('Field phone').first().waitFor()

  later(11)
  await part(page).getByRole('button', { name: 'Take away: Field phone' }).click()
  await page.getByRole('button', { name: 'Take it away' }).click()
  await page.getByRole('dialog', { name: 'Is it you?' }).getByRole('button', { name: 'Use a passkey' }).waitFor()
  await picture(page, 'phone-identity-passkey')
  await page.getByRole('button', { name: 'Use a passkey' }).click()
  await part(page).getByText('You have none.').waitFor()
  await page.context().close()
})

it.each(['desktop', 'phone'] as const)(
  'what cannot be undone asks who one is, and loses nothing (%s)',
  async (screen) => {
    const { name } = await somebody(['administrator'])
    const page = await openAt('/accounts', screen)
    await signIn(page, name)
    await page.getByRole('button', { name: 'Invite somebody' }).click()
    await page.getByLabel('Name to sign in with').fill(`guest-of-${name}`)
    await page.getByRole('checkbox', { name: /Training office/ }).check()
    later(11)
    await page
      .getByRole('button', { name: /^(Make the|Invite)/ })
      .last()
      .click()
    const dialog = page.getByRole('dialog', { name: 'Is it you?' })
    await dialog.getByLabel('Your password').fill('wrong')
    await dialog.getByRole('button', { name: 'Go on' }).click()
    await dialog.getByText(/not your present password/).waitFor()
    await picture(page, `${screen}-identity`)
    expect(await axeInEveryTheme(page)).toEqual([])
    await dialog.getByRole('button', { name: 'Cancel' }).click()
    await dialog.waitFor({ state: 'detached' })
    expect(await page.getByLabel('Name to sign in with').inputValue()).toBe(`guest-of-${name}`)
    await page
      .getByRole('button', { name: /^(Make the|Invite)/ })
      .last()
      .click()
    await dialog.getByLabel('Your password').fill(PASSWORD)
    await dialog.getByRole('button', { name: 'Go on' }).click()
    await page.getByText(`guest-of-${name}`).first().waitFor()
    await dialog.waitFor({ state: 'detached' })
    expect(await world.app.sql('SELECT 1 FROM account WHERE name = $1', [`guest-of-${name}`])).toHaveLength(1)
    await page.context().close()
  },
)

it('an administrator says which roles need one; who lacks it is led to set one up, and to nothing else', async () => {
  const { name, client } = await somebody(['administrator'])
  const admin = await setUpApp(world.app, client)
  later(1)
  const page = await openAt('/accounts/second-factor', 'desktop')
  await signIn(page, name)
  await page.getByLabel('Code').fill(admin.code())
  await page.getByRole('button', { name: 'Sign in', exact: true }).click()
  await page.getByRole('heading', { name: 'No role needs a second factor.' }).waitFor()
  await page.getByRole('checkbox', { name: /Commander/ }).check()
  await page.getByRole('button', { name: 'Save' }).click()
  await page.getByText('Saved.').waitFor()
  await page.getByRole('heading', { name: 'A second factor is needed now by commander.' }).waitFor()
  await picture(page, 'desktop-rules')
  expect(await axeInEveryTheme(page)).toEqual([])
  await page.setViewportSize({ width: 390, height: 844 })
  await picture(page, 'phone-rules')
  await page.context().close()

  made += 1
  const lacking = `commander-${made}`
  await world.app.signedIn({ name: lacking, roles: ['commander'], unitId: world.platoonId })
  const theirs = await openAt('/', 'phone')
  await signIn(theirs, lacking)
  await theirs.getByRole('heading', { name: 'Set up a second factor first.' }).waitFor()
  await picture(theirs, 'phone-enrol')
  expect(await axeInEveryTheme(theirs)).toEqual([])
  await theirs.goto(`${url}/people`)
  await theirs.getByRole('button', { name: 'Set up an authenticator app' }).click()
  const key = (await theirs.locator('.factor-key').textContent())!.replaceAll(' ', '')
  await theirs.getByLabel('The code it shows now').fill(codeOf(key, world.app.clock.now))
  await theirs.getByRole('button', { name: 'Set it up' }).click()
  await theirs.getByRole('button', { name: 'I have them' }).click()
  await theirs.getByRole('button', { name: 'Menu' }).waitFor()
  await theirs.context().close()
})

it('a lost phone: an administrator resets it with a reason, and its owner is told', async () => {
  const { name } = await somebody(['administrator'])
  const owner = await somebody(['office'])
  await setUpApp(world.app, owner.client)
  const page = await openAt('/accounts', 'desktop')
  await signIn(page, name)
  await page.getByLabel('Name', { exact: true }).fill(owner.name)
  await page.getByRole('button', { name: `Change ${owner.name}` }).click()
  await page.getByRole('button', { name: 'Reset the second factor' }).click()
  await page.getByRole('dialog').getByLabel('Reason').fill('Phone lost on the range')
  await picture(page, 'desktop-reset')
  await page.getByRole('button', { name: 'Reset it', exact: true }).click()
  await page.getByText(/has no second factor any more/).waitFor()
  await owner.client.refused(401, 'GET', '/api/session')
  await page.context().close()

  const theirs = await openAt('/account', 'phone')
  await signIn(theirs, owner.name)
  await theirs.getByText('Phone lost on the range').waitFor()
  await picture(theirs, 'phone-reset-told')
  expect(await axeInEveryTheme(theirs)).toEqual([])
  await theirs.getByRole('button', { name: 'I know about this' }).click()
  await theirs.getByText('Phone lost on the range').waitFor({ state: 'detached' })
  await theirs.reload()
  await part(theirs).getByText('You have none.').waitFor()
  expect(await theirs.getByText('Phone lost on the range').count()).toBe(0)
  await theirs.context().close()
})
