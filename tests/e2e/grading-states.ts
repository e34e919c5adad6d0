import type { Page } from 'playwright-core'
import { atCall, markCorrect } from './field-world.ts'

/** Called with the page in a state, and what the state is called. */
export type Visit = (state: string) => Promise<void>

const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name, exact: true }).first()

/** From the form of somebody without a booking to the first call: every state on the way. */
export async function visitStart(
  page: Page,
  visit: Visit,
  candidate = { rosterNumber: '1010', familyName: 'Brandt' },
): Promise<void> {
  const open = page.getByRole('button', { name: /open the day$/ })
  await open.or(page.getByLabel('Roster number')).first().waitFor()
  if (await open.isVisible()) {
    await visit('cautions')
    await open.click()
  }
  await page.getByLabel('Roster number').waitFor()
  await visit('start')
  await page.getByRole('button', { name: /start the test/ }).click()
  await page.getByText('Give the roster number.').waitFor()
  await visit('start-missing')
  await page.getByLabel('Roster number').fill(candidate.rosterNumber)
  await page.getByLabel('Family name').fill(candidate.familyName)
  const standard = page.getByLabel('Standard', { exact: true })
  if (await standard.isVisible()) await standard.selectOption({ label: 'Sword and saber, standing manual' })
  const arm = page.getByText('sword', { exact: true })
  if (await arm.isVisible()) await arm.click()
  await page.getByRole('button', { name: /start the test/ }).click()
  await atCall(page, 1)
}

/** From the first call of a sheet of the standing manual to its end: every state that a grader comes to. */
export async function visitRunning(page: Page, visit: Visit): Promise<void> {
  const press = (name: string | RegExp) => button(page, name).click()
  await visit('call')
  await markCorrect(page, 1, 5)
  await atCall(page, 6)
  await visit('present')
  await press(/^measure Height of the tip/)
  await page.getByRole('textbox', { name: /^Height of the tip/ }).fill('3.5')
  await page.getByText(/^too low/).waitFor()
  await visit('reading')
  await press('Correct')
  await page.getByRole('heading', { name: 'The reading says incorrect' }).waitFor()
  await visit('contradiction')
  await press('Ground uneven')
  await atCall(page, 7)
  await press(/^All calls/)
  await visit('allcalls')
  await press('Back')
  await press('More')
  await visit('more')
  await press(/^End the test void/)
  await visit('void')
  await press('Back')
  await press(/Ceremonial composure/)
  await visit('major')
  await press('It stays GO')
  await press('Cease')
  await page.getByRole('heading', { name: 'CEASE' }).waitFor()
  await visit('ceased')
  await press(/go on with the test/)
  await markCorrect(page, 7, 35)
  await atCall(page, 36)
  await visit('run')
  await markCorrect(page, 36, 39)
  await button(page, /close the sheet/).waitFor()
  await visit('closing')
  await press(/close the sheet/)
  await page.getByRole('heading', { name: 'By measure' }).waitFor()
  await visit('closed')
}
