import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { axeViolations, openBrowser, openPage, type screens } from '../support/browser.ts'
import { PASSWORD } from '../support/build-test-app.ts'
import { makeUnit } from '../support/factories.ts'
import { openProvider, type TestProvider } from '../support/sign-on/open-provider.ts'
import { buildSignOnWorld, type Directory, type SignOnWorld } from '../support/sign-on/sign-on-world.ts'

let world: SignOnWorld
let browser: Browser
let directory: Directory
let fresh: TestProvider
beforeAll(async () => {
  world = await buildSignOnWorld()
  await makeUnit(world.test.office, { name: '2nd Platoon', kind: 'platoon' })
  directory = await world.addProvider({ name: 'Guard directory' })
  fresh = await openProvider()
  browser = await openBrowser()
})
afterAll(async () => {
  await browser?.close()
  await fresh?.close()
  await world?.close()
})

const picture = async (page: Page, name: string) => {
  const folder = process.env.PICTURES
  if (folder) await page.screenshot({ path: `${folder}/${name}.png`, fullPage: true })
}

async function axeInEveryTheme(page: Page): Promise<string[]> {
  const found: string[] = []
  for (const theme of ['light', 'dark', 'sun']) {
    await page.evaluate((chosen) => (document.documentElement.dataset.theme = chosen), theme)
    for (const violation of await axeViolations(page)) found.push(`${theme}: ${violation}`)
  }
  await page.evaluate(() => (document.documentElement.dataset.theme = 'light'))
  return found
}

async function signInByPassword(page: Page, name: string): Promise<void> {
  await page.getByLabel('Name', { exact: true }).fill(name)
  await page.getByLabel('Password', { exact: true }).fill(PASSWORD)
  await page.keyboard.press('Enter')
}

/** Waits until somebody is signed in. */
const signedIn = (page: Page, name: string, screen: keyof typeof screens) =>
  page.getByRole('button', { name: screen === 'phone' ? 'Menu' : name, exact: true }).waitFor()

/** The directory's own page. */
async function sayWho(page: Page, who: string): Promise<void> {
  await page.waitForURL(/\/login\//)
  await page.getByLabel('Who').fill(who)
  await page.getByRole('button', { name: 'Go on' }).click()
}

describe.each(['phone', 'desktop'] as const)('somebody with an account (%s)', (screen: keyof typeof screens) => {
  it('links it, signs out on both sides, signs in by the directory where they wanted to go, and unlinks it', async () => {
    const name = `mirela ${screen}`
    const who = `subject-${screen}`
    directory.provider.people.set(who, {})
    await world.test.signedIn({ name })
    const page = await openPage(browser, `${world.url}/account`, screen)
    await page.getByRole('button', { name: 'Sign in with Guard directory' }).waitFor()
    await picture(page, `${screen}-sign-in`)
    expect(await axeInEveryTheme(page)).toEqual([])
    await signInByPassword(page, name)

    await page.getByRole('button', { name: 'Link: Guard directory' }).click()
    await page.getByLabel('Your password').fill('wrong')
    await page.getByRole('button', { name: 'Go to Guard directory' }).click()
    await page.getByText('This is not your present password.').waitFor()
    await page.getByLabel('Your password').fill(PASSWORD)
    await picture(page, `${screen}-link`)
    expect(await axeInEveryTheme(page)).toEqual([])
    await page.getByRole('button', { name: 'Go to Guard directory' }).click()
    await sayWho(page, who)
    await page.getByText(/Guard directory, linked since/).waitFor()

    // A session by password is none of the directory's; one by the directory ends there, too.
    const signOut = async () => {
      if (screen === 'phone') await page.getByRole('button', { name: 'Menu' }).click()
      await page.getByRole('button', { name, exact: true }).click()
      await page.getByRole('button', { name: 'Sign out', exact: true }).click()
    }
    await signOut()
    await page.goto(`${world.url}/standards`)
    await page.getByRole('button', { name: 'Sign in with Guard directory' }).click()
    await page.waitForURL(`${world.url}/standards`)
    await signedIn(page, name, screen)
    await signOut()
    await page.getByRole('button', { name: 'Sign out here too' }).click()
    await page.waitForURL(`${world.url}/sign-in`)
    await page.getByRole('button', { name: 'Sign in with Guard directory' }).click()
    await sayWho(page, 'nobody of ours')
    await page.getByText('Guard directory did not sign you in.').waitFor()
    await picture(page, `${screen}-refused`)

    await signInByPassword(page, name)
    await signedIn(page, name, screen)
    await page.goto(`${world.url}/account`)
    await page.getByRole('button', { name: 'Unlink: Guard directory' }).click()
    await page.getByLabel('Your password').fill(PASSWORD)
    await page.getByRole('button', { name: 'Unlink it' }).click()
    await page.getByText('Guard directory, not linked').waitFor()
    await page.context().close()
  })
})

describe.each(['phone', 'desktop'] as const)('an administrator (%s)', (screen: keyof typeof screens) => {
  it('adds a provider, tests it, tries its rules, and somebody gets an account by them', async () => {
    const called = `Office directory ${screen}`
    const page = await openPage(browser, `${world.url}/sign-on`, screen)
    await signInByPassword(page, 'warden')
    await page.getByRole('button', { name: 'Add a provider' }).click()
    const returnAddress = await page.getByLabel('Return address (redirect URI)').inputValue()
    const logoutAddress = await page.getByLabel(/back-channel logout URI/).inputValue()
    fresh.register({
      id: 'ours',
      secret: 'a secret that was typed',
      returnAddress,
      logoutAddress,
      signedOutAddress: `${world.url}/sign-in`,
    })
    await page.getByLabel('Name on the sign-in page').fill(called)
    await page.getByLabel('Issuer').fill('http://login.example.org')
    await page.getByLabel('Client id').fill('ours')
    await page.getByLabel('Client secret', { exact: true }).fill('wrong')
    await page.getByRole('button', { name: 'Store it' }).click()
    await page.getByText('An issuer begins with https://.').first().waitFor()
    await page.getByLabel('Issuer').fill(fresh.issuer)
    await page.getByRole('button', { name: 'Store it' }).click()
    await page.getByText(`${called} is stored.`).waitFor()
    await page.getByRole('button', { name: `Test ${called}` }).click()
    await page.getByText('It refuses the client.').waitFor()
    await picture(page, `${screen}-tested`)
    expect(await axeInEveryTheme(page)).toEqual([])

    await page.getByRole('button', { name: `Change ${called}` }).click()
    await page.getByLabel('Client secret', { exact: true }).fill('a secret that was typed')
    await page.getByRole('checkbox', { name: /^Make an account at the first sign-in/ }).check()
    await page.getByRole('button', { name: 'Add a rule' }).click()
    await page.getByLabel('Value').fill('leaders')
    await page.getByLabel('Then the role').selectOption({ label: 'Leader' })
    await page.getByLabel('Over the unit').selectOption({ label: '2nd Platoon' })
    await page
      .getByLabel('Try the rules on a sample')
      .fill('{"sub": "x", "preferred_username": "rafe", "groups": ["graders"]}')
    await page.getByRole('button', { name: 'Try them' }).click()
    await page.getByText('No account would be made: no rule gives a role.').waitFor()
    await page.getByText('Rule 1: does not fit: groups is no list that contains “leaders”.').waitFor()
    await page
      .getByLabel('Try the rules on a sample')
      .fill('{"sub": "x", "preferred_username": "rafe", "groups": ["leaders"]}')
    await page.getByRole('button', { name: 'Try them' }).click()
    await page.getByText('An account rafe would be made, with: Leader, over 2nd Platoon.').waitFor()
    await picture(page, `${screen}-form`)
    expect(await axeInEveryTheme(page)).toEqual([])
    await page.getByRole('button', { name: 'Store it' }).click()
    await page.getByText(`${called} is stored.`).waitFor()
    world.test.clock.now = new Date() // The provider's clock goes on; the server's stands still in tests.
    await page.getByRole('button', { name: `Test ${called}` }).click()
    await page.getByText(`${called} is ready.`).waitFor()
    await picture(page, `${screen}-ready`)
    await page.context().close()

    fresh.people.set(`rafe ${screen}`, { preferred_username: `rafe ${screen}`, groups: ['leaders'] })
    const other = await openPage(browser, `${world.url}/sign-in`, screen)
    await other.getByRole('button', { name: `Sign in with ${called}` }).click()
    await sayWho(other, `rafe ${screen}`)
    await signedIn(other, `rafe ${screen}`, screen)
    // The issuer is free again for the next screen.
    await world.test.sql('DELETE FROM identity USING sign_on_provider p WHERE p.id = provider_id AND p.name = $1', [
      called,
    ])
    await world.test.sql('DELETE FROM sign_on_provider WHERE name = $1', [called])
    await other.context().close()
  })
})

it('a provider that is down is named, and the password lets in, also where it is folded away', async () => {
  await world.warden.put('/api/sign-on-providers/page', { foldsPasswords: true }, 200)
  const page = await openPage(browser, `${world.url}/sign-in`, 'phone')
  await page.getByText('Sign in with name and password').waitFor()
  expect(await page.getByLabel('Password', { exact: true }).isVisible()).toBe(false)
  await picture(page, 'phone-folded')
  await directory.provider.goDown()
  await page.getByRole('button', { name: 'Sign in with Guard directory' }).click()
  await page.getByText('Guard directory does not answer just now.').waitFor()
  await picture(page, 'phone-down')
  await page.getByText('Sign in with name and password').click()
  await signInByPassword(page, 'warden')
  await signedIn(page, 'warden', 'phone')
  await directory.provider.comeBack()
  await world.warden.put('/api/sign-on-providers/page', { foldsPasswords: false }, 200)
  await page.context().close()
})
