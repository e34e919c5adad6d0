import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { axeViolations, openBrowser, openPage } from '../support/browser.ts'
import { PASSWORD } from '../support/build-test-app.ts'
import { buildWorld, NOW, settled, type World } from './world.ts'

const CHOSEN = 'the drums beat at noon'
const NEXT = 'walnut carriage under rain'

let world: World
let browser: Browser
beforeAll(async () => {
  world = await buildWorld()
  await world.app.signedIn({ name: 'admin', roles: ['administrator'] })
  browser = await openBrowser()
})
afterAll(async () => {
  await browser?.close()
  await world?.close()
})

/** A browser of its own, at an address; what breaks the content security policy is kept. */
async function openAt(address: string, screen: 'phone' | 'desktop' = 'desktop'): Promise<Page> {
  const page = await openPage(browser, 'about:blank', screen)
  await page.clock.setFixedTime(new Date(NOW))
  await page.addInitScript(() => {
    const kept: string[] = []
    Object.assign(window, { violations: kept })
    document.addEventListener('securitypolicyviolation', (event) =>
      kept.push(`${event.violatedDirective} ${event.blockedURI} ${event.sourceFile}:${event.lineNumber}`),
    )
  })
  await page.goto(world.url + address)
  return page
}
const violationsIn = (page: Page) => page.evaluate(() => (window as unknown as { violations: string[] }).violations)

async function signIn(page: Page, name: string, password: string): Promise<void> {
  await page.getByLabel('Name').fill(name)
  await page.getByLabel('Password').fill(password)
  await page.keyboard.press('Enter')
}

async function axeInEveryTheme(page: Page): Promise<string[]> {
  const found: string[] = []
  for (const theme of ['light', 'dark', 'sun']) {
    await page.evaluate((chosen) => (document.documentElement.dataset.theme = chosen), theme)
    for (const violation of await axeViolations(page)) found.push(`${theme}: ${violation}`)
  }
  return found
}

const newPassword = (page: Page) => page.getByLabel('New password')

describe('an account', () => {
  it('is made by an invitation, and the invited chooses the password', async () => {
    const admin = await openAt('/accounts')
    await signIn(admin, 'admin', PASSWORD)
    await admin.getByRole('button', { name: 'Invite somebody' }).click()
    await admin.getByLabel('Name to sign in with').fill('mirela.ashdown')
    await admin.getByRole('checkbox', { name: /^Sponsor/ }).check()
    await admin.getByRole('button', { name: 'Make the account and its link' }).click()
    await admin.getByText('Choose the soldier on the roster who is the sponsor.').waitFor()
    expect(await axeInEveryTheme(admin)).toEqual([])
    await admin.getByLabel('Soldier on the roster').fill('1003')
    await admin.getByRole('option', { name: /Ashdown/ }).click()
    await admin.getByRole('button', { name: 'Make the account and its link' }).click()
    const link = await admin.getByLabel('Link for mirela.ashdown').inputValue()
    expect(link).toMatch(new RegExp(`^${world.url}/welcome#[\\w-]{43}$`))
    await admin.getByRole('heading', { name: /one has yet to choose a password/ }).waitFor()
    expect(await axeInEveryTheme(admin)).toEqual([])
    await admin.getByRole('button', { name: 'Done' }).click()
    expect(await admin.content()).not.toContain(link.split('#')[1])

    const invited = await openAt(link.slice(world.url.length), 'phone')
    await invited.getByRole('heading', { name: 'Choose your password.' }).waitFor()
    expect(await axeInEveryTheme(invited)).toEqual([])
    expect(await invited.getByLabel('Name to sign in with').inputValue()).toBe('mirela.ashdown')
    await invited.getByLabel('Password', { exact: true }).fill('Mirela.Ashdown.1003')
    await invited.keyboard.press('Enter')
    await invited.getByText(/among the first that anybody would try/).waitFor()
    await invited.getByLabel('Password', { exact: true }).fill(CHOSEN)
    await invited.keyboard.press('Enter')
    await invited.waitForURL(`${world.url}/`)
    await settled(invited)

    const again = await openAt(link.slice(world.url.length))
    await again.getByRole('heading', { name: 'This link no longer works.' }).waitFor()

    await admin.reload()
    await admin.getByRole('button', { name: 'Change mirela.ashdown' }).click()
    await admin.getByRole('button', { name: 'Disable it' }).click()
    await admin.getByText('mirela.ashdown is disabled and signed out everywhere.').waitFor()
    await invited.goto(`${world.url}/candidates`)
    await invited.getByRole('heading', { name: 'Sign in to see who can stand.' }).waitFor()
    for (const page of [admin, invited, again]) await page.context().close()
  })

  it('has its password changed by its owner, which ends the other session', async () => {
    await world.app.signedIn({ name: 'bram', roles: ['office'] })
    const phone = await openAt('/retests', 'phone')
    await signIn(phone, 'bram', PASSWORD)
    await phone.waitForURL(`${world.url}/retests`)

    const desk = await openAt('/sign-in')
    await signIn(desk, 'bram', PASSWORD)
    await desk.getByRole('button', { name: 'bram' }).click()
    await desk.getByRole('link', { name: 'My account' }).click()
    await desk.getByRole('heading', { name: 'You are signed in here and in two other places.' }).waitFor()
    expect(await axeInEveryTheme(desk)).toEqual([])
    await desk.getByLabel('Present password').fill('not the password at all')
    await newPassword(desk).fill(NEXT)
    await desk.getByRole('button', { name: 'Change the password' }).click()
    await desk.getByText('This is not your present password. Type it again.').waitFor()
    await desk.getByLabel('Present password').fill(PASSWORD)
    await desk.getByRole('button', { name: 'Change the password' }).click()
    await desk.getByText('The password is changed. Two other sessions were ended.').waitFor()
    await desk.getByRole('heading', { name: 'You are signed in here and nowhere else.' }).waitFor()

    await phone.reload()
    await phone.getByRole('heading', { name: 'Sign in to see who can stand.' }).waitFor()
    await signIn(phone, 'bram', NEXT)
    await phone.waitForURL(`${world.url}/retests`)

    await desk.reload()
    await desk.getByRole('button', { name: /^Sign out: Chrome/ }).click()
    await desk.getByRole('heading', { name: 'You are signed in here and nowhere else.' }).waitFor()
    await phone.reload()
    await phone.getByRole('heading', { name: 'Sign in to see who can stand.' }).waitFor()
    await desk.getByRole('button', { name: 'Sign out everywhere, here too' }).click()
    await desk.getByRole('heading', { name: 'Sign in to see who can stand.' }).waitFor()
    for (const page of [phone, desk]) await page.context().close()
  })

  it('that is no administrator’s has no way to the accounts', async () => {
    const page = await openAt('/accounts')
    await signIn(page, 'office', PASSWORD)
    await page.getByRole('heading', { name: 'The page “Accounts” is for administrators.' }).waitFor()
    expect(await page.getByRole('link', { name: 'Accounts' }).count()).toBe(0)
    await page.context().close()
  })
})

describe('the content security policy', () => {
  it('is broken by no page of ours, and stops what somebody else slips in', async () => {
    const page = await openAt('/sign-in')
    await signIn(page, 'office', PASSWORD)
    await page.waitForURL(`${world.url}/`)
    const addresses = ['/', '/stand', `/candidates/${world.candidateId}`, `/sheets/${world.heldId}`, '/enter', '/held']
    for (const address of [...addresses, '/findings/measures', '/findings/sponsors', '/standards', '/account']) {
      await page.goto(world.url + address)
      await settled(page)
      expect([address, await violationsIn(page)]).toEqual([address, []])
    }
    const ran = await page.evaluate(async () => {
      const script = document.createElement('script')
      script.textContent = 'window.ran = true'
      document.body.append(script)
      const image = document.createElement('img')
      image.src = 'https://evil.example/x.png'
      document.body.append(image)
      await new Promise((resolve) => setTimeout(resolve, 50))
      return (window as unknown as { ran?: boolean }).ran === true
    })
    expect(ran).toBe(false)
    const stopped = (await violationsIn(page)).join()
    expect(stopped).toMatch(/script-src/)
    expect(stopped).toMatch(/img-src https:\/\/evil\.example/)
    await page.context().close()
  })
})
