import type { Browser, BrowserContext } from 'playwright-core'
import { addressesOf, type Screen } from '../support/addresses.ts'
import { screens } from '../support/browser.ts'
import { workedOut } from '../support/plans/solved-plan.ts'
import { shortStandard } from '../support/sheet-body.ts'
import { signIn } from '../support/sign-in.ts'
import { NOW, type World } from './world.ts'

/** A window at the size of a desk. */
export const atDesk = (browser: Browser, more = {}): Promise<BrowserContext> =>
  browser.newContext({ viewport: screens.desktop, reducedMotion: 'reduce', serviceWorkers: 'block', ...more })

/** Signs in with an account of the world. */
export async function signInAs(world: World, session: BrowserContext, name: string): Promise<void> {
  await signIn(session, world.url, name)
}

/** An account with every role but a soldier's, in a window of its own; a test day and a file to look at, and the address of every screen. */
export async function seeEverything(
  world: World,
  browser: Browser,
): Promise<{ session: BrowserContext; addresses: Map<Screen, string> }> {
  const testDay = await world.app.office.post('/api/test-days', { on: '2026-06-24', unitId: world.platoonId })
  const roles = ['office', 'administrator', 'commander'] as const
  await world.app.signedIn({ name: 'everything', roles: [...roles], unitId: world.platoonId })
  const session = await atDesk(browser)
  await signInAs(world, session, 'everything')
  const file = await session.request.post(`${world.url}/api/imports`, {
    data: Buffer.from('Candidate,Sponsor,From\n1007,1003,3/4/2026\n'),
    headers: { origin: world.url, 'content-type': 'application/octet-stream' },
  })
  const asked = { kind: 'retests', unitId: world.platoonId, from: NOW.slice(0, 10), to: '2026-07-31' }
  const { id: planId } = await world.app.office.post('/api/plans', asked, 202)
  await workedOut(world.app.office, planId)
  const addresses = new Map(
    addressesOf({
      desk: 'commander',
      candidates: world.candidateId,
      people: world.candidateId,
      terms: 'sword',
      retests: `${world.candidateId}/${world.standard}`,
      'test-days': testDay.id,
      'retest-plans': planId,
      sheets: world.heldId,
      ceremonies: world.ceremonyId,
      standards: world.standard,
      import: (await file.json()).id,
    }),
  )
  const { id: draftId } = await world.app.office.post('/api/standards', shortStandard({ code: 'draft' }))
  addresses.set('draft', `/standards/${draftId}/draft`).set('tryDraft', `/standards/${draftId}/draft/practice`)
  return { session, addresses }
}
