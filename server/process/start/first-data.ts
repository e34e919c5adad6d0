import type { Config } from '../../config/config.ts'
import { StartProblem } from '../../config/start-problem.ts'
import type { Database } from '../../db/client.ts'
import { type DemoState, readDemoState, writeDemoState } from './demo-marker.ts'
import { withSetupLock } from './with-setup-lock.ts'

/** Fills an empty database with the demo. */
export type LoadDemo = (to: {
  db: Database
  clock: () => Date
  timeZone: string
  say: (line: string) => void
}) => Promise<void>

interface Surroundings {
  config: Pick<Config, 'demo' | 'timeZone' | 'newLinkFor'>
  url: string
  db: Database
  clock: () => Date
  say: (line: string) => void
  loadDemo: LoadDemo
}

/** What there is to tell about who can sign in. */
export interface FirstData {
  holdsDemo: boolean
  /** One-time token that makes the first account; null: there are accounts. */
  setupToken: string | null
  /** One-time token that chooses a new password of the account that REVIEWSTAND_NEW_LINK names; null: none is named. */
  newLinkToken: string | null
}

/**
 * Gives an empty database what it starts with: the demo, or a token to make the first account with.
 * @throws StartProblem when the database and the settings do not go together
 */
export function giveFirstData(surroundings: Surroundings): Promise<FirstData> {
  return withSetupLock(surroundings.url, async () => {
    const { config, url, db, clock } = surroundings
    const { databaseIsEmpty } = await import('../../accounts/services/setup/database-is-empty.ts')
    checkDemoState(await readDemoState(url), config.demo)
    const isEmpty = await databaseIsEmpty(db)
    if (config.demo && isEmpty) await loadDemoOnce(surroundings)
    const newLinkToken = await makeNewLink(surroundings)
    if (config.demo || !isEmpty) {
      return { holdsDemo: (await readDemoState(url)) === 'demo', setupToken: null, newLinkToken }
    }
    const { createSetupLink } = await import('../../accounts/services/setup/create-setup-link.ts')
    return { holdsDemo: false, setupToken: await createSetupLink({ db, clock }), newLinkToken }
  })
}

async function makeNewLink({ config: { newLinkFor }, db, clock }: Surroundings): Promise<string | null> {
  if (newLinkFor === null) return null
  const { createNewLink } = await import('../../accounts/services/setup/create-new-link.ts')
  const token = await createNewLink({ db, clock }, newLinkFor)
  if (token !== null) return token
  throw new StartProblem(
    `REVIEWSTAND_NEW_LINK is ${JSON.stringify(newLinkFor)}, but no account of this name can sign in. Correct it or leave it out.`,
  )
}

async function loadDemoOnce({ config, url, db, clock, say, loadDemo }: Surroundings): Promise<void> {
  say('Loading the demo (Calloway Point, an invented battalion); this takes up to a minute …')
  await writeDemoState(url, 'loading')
  await loadDemo({ db, clock, timeZone: config.timeZone, say })
  await writeDemoState(url, 'demo')
}

function checkDemoState(state: DemoState, isDemoOn: boolean): void {
  if (state === 'loading') {
    throw new StartProblem('Loading the demo into this database was broken off. Empty the database and start again.')
  }
  if (state === 'demo' && !isDemoOn) {
    throw new StartProblem(
      'This database holds the demo, whose passwords are public, and REVIEWSTAND_DEMO is off. ' +
        'For data of your own set REVIEWSTAND_DATA to a new folder (or DATABASE_URL to an empty database).',
    )
  }
}
