import { createContext } from '../../server/context/create-context.ts'
import type { MailPost } from '../../server/context/mail-post.ts'
import type { OwnMail } from '../../server/contract/mail/mail.ts'
import { closeDatabase, openDatabase } from '../../server/db/client.ts'
import { mailRounds } from '../../server/mail/services/mail-rounds.ts'
import { buildTestApp, PASSWORD, type TestApp } from './build-test-app.ts'
import type { Client } from './client.ts'
import type { MailServer, Received } from './mail-server.ts'

/** The product with mail, whose rounds a test makes itself. */
export interface MailWorld extends TestApp {
  /** A round, as the server makes one every few seconds. Faults of ours fail the test. */
  round(): Promise<void>
  /** Another server process on the same database. */
  another(post?: MailPost): { round: () => Promise<void>; close: () => Promise<void> }
  /** Lets time pass for the rounds alone, so that nobody's session ends: so many hours, until `backToNow`. */
  wait(hours: number): void
  backToNow(): void
  /** Gives an account an address, with the code that is sent there. */
  confirm(client: Client, address: string): Promise<OwnMail>
  /** Makes rounds and takes the mails that came to an address meanwhile. */
  mailsTo(address: string): Promise<Received[]>
}

export async function buildMailWorld(
  server: MailServer,
  now: string,
  post: MailPost = server.post(),
): Promise<MailWorld> {
  const test = await buildTestApp({ now, mail: post })
  let offset = 0
  const later = () => new Date(test.clock.now.getTime() + offset)
  const rounds = (db: TestApp['db'], way: MailPost) => {
    const context = createContext({ db, clock: later, timeZone: 'UTC', mail: way })
    const faults: unknown[] = []
    const round = mailRounds(context, (error) => faults.push(error))
    return async () => {
      await round()
      if (faults.length > 0) throw new AggregateError(faults.splice(0), 'A round of mail failed.')
    }
  }
  let round = rounds(test.db, post)
  const world: MailWorld = {
    ...test,
    round: () => round(),
    another(way = post) {
      const db = openDatabase(test.databaseUrl)
      return { round: rounds(db, way), close: () => closeDatabase(db) }
    },
    wait: (hours) => {
      offset += hours * 3_600_000
    },
    backToNow() {
      offset = 0
      round = rounds(test.db, post)
    },
    async confirm(client, address) {
      await client.put('/api/account/mail/address', { address, password: PASSWORD }, 200)
      const [mail] = await world.mailsTo(address)
      return client.post('/api/account/mail/confirm', { code: codeIn(mail!) }, 200)
    },
    async mailsTo(address) {
      await round()
      const mails = server.received.filter(({ to }) => to.includes(address))
      for (const mail of mails) server.received.splice(server.received.indexOf(mail), 1)
      return mails
    },
  }
  return world
}

/** The code in a mail that asks to confirm an address. */
export const codeIn = ({ mail }: Received): string => /^\s*(\d{8})\s*$/m.exec(mail.text ?? '')![1]!
