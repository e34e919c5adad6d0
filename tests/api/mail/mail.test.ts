import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest'
import type { FailedMail, MailStatus, OwnMail } from '../../../server/contract/mail/mail.ts'
import { claimMail, endClaim, queueMail } from '../../../server/mail/db/mail-queue.db.ts'
import { PASSWORD } from '../../support/build-test-app.ts'
import type { Client } from '../../support/client.ts'
import { makeTestSetting, putSheet, type TestSetting } from '../../support/factories.ts'
import { type MailServer, ORIGIN, SENDER, startMailServer } from '../../support/mail-server.ts'
import { buildMailWorld, codeIn, type MailWorld } from '../../support/mail-world.ts'
import { times } from '../../support/sheet-body.ts'

/** A Tuesday, noon in UTC. */
const NOW = '2026-06-16T12:00:00Z'

let server: MailServer
let world: MailWorld
let admin: Client
let made = 0
beforeAll(async () => {
  server = await startMailServer()
  world = await buildMailWorld(server, NOW)
  admin = await world.signedIn({ name: 'admin', roles: ['administrator'] })
})
afterAll(async () => {
  await world.close()
  await server.close()
})

afterEach(() => {
  world.backToNow()
  for (const list of [server.received, ...Object.values(server.refuse)]) list.length = 0
})

interface Person {
  readonly client: Client
  readonly address: string
  readonly setting: TestSetting
}

/** A candidate with an account and a confirmed address, on a ground of their own. */
async function candidate(address = `candidate-${made++}@unit.example`): Promise<Person> {
  const setting = await makeTestSetting(world.office)
  const client = await world.signedIn({ name: `person ${made++}`, roles: ['soldier'], soldierId: setting.candidateId })
  await world.confirm(client, address)
  return { client, address, setting }
}

async function book({ candidateId, standard, graderId, unitId }: TestSetting, on = '2026-06-20'): Promise<string> {
  const { id } = await world.office.post('/api/test-days', { on, unitId, place: 'South Field' })
  return (await world.office.post(`/api/test-days/${id}/bookings`, { candidateId, standard, graderId })).id
}

const failures = async () => (await admin.get<{ items: FailedMail[] }>('/api/mail/failures')).items
const status = () => admin.get<MailStatus>('/api/mail')
const stateOf = async (client: Client) => (await client.get<OwnMail>('/api/account/mail')).state

describe('an address', () => {
  it('gets nothing but a code until that is typed by who gave it, with the password', async () => {
    const client = await world.signedIn({ name: 'fresh', roles: ['office'] })
    expect(await client.get<OwnMail>('/api/account/mail')).toMatchObject({
      on: true,
      hour: 6,
      address: null,
      state: 'none',
    })
    const body = { address: 'fresh@unit.example', password: PASSWORD }
    const wrong = await client.refused(422, 'PUT', '/api/account/mail/address', { ...body, password: 'something else' })
    expect(wrong.errors?.[0]).toMatchObject({ pointer: '/password', rule: 'wrong-password' })
    expect(await client.put('/api/account/mail/address', body, 200)).toMatchObject({ state: 'unconfirmed' })

    const setting = await makeTestSetting(world.office)
    await putSheet(world.office, setting.sheet({ ...times('2026-06-10'), sponsorId: null }))
    const [mail, ...more] = await world.mailsTo('fresh@unit.example')
    expect(more).toEqual([])
    expect(mail!.mail.subject).toBe('Reviewstand: confirm this address')
    const code = codeIn(mail!)
    expect(mail!.raw).not.toMatch(/fresh(?!@)|Ashford/)
    expect(await world.sql(`SELECT 1 FROM mail_code WHERE encode(code_hash, 'escape') LIKE '%${code}%'`)).toEqual([])

    const other = code === '00000000' ? '00000001' : '00000000'
    expect((await client.refused(422, 'POST', '/api/account/mail/confirm', { code: other })).errors?.[0]?.rule).toBe(
      'wrong-code',
    )
    const stranger = await world.signedIn({ name: 'stranger', roles: ['office'] })
    expect((await stranger.refused(422, 'POST', '/api/account/mail/confirm', { code })).errors?.[0]?.rule).toBe(
      'no-code',
    )
    expect(await client.post('/api/account/mail/confirm', { code }, 200)).toMatchObject({ state: 'confirmed' })
    await client.refused(422, 'POST', '/api/account/mail/confirm', { code })
  })

  it('is not confirmed by guessing: five wrong codes end it, and five codes a day are sent', async () => {
    const client = await world.signedIn({ name: 'guesser', roles: ['office'] })
    await client.put('/api/account/mail/address', { address: 'victim@unit.example', password: PASSWORD }, 200)
    const code = codeIn((await world.mailsTo('victim@unit.example'))[0]!)
    for (let wrong = 0; wrong < 5; wrong += 1) {
      const guess = String((Number(code) + 1 + wrong) % 100_000_000).padStart(8, '0')
      await client.refused(422, 'POST', '/api/account/mail/confirm', { code: guess })
    }
    expect((await client.refused(422, 'POST', '/api/account/mail/confirm', { code })).errors?.[0]?.rule).toBe('no-code')
    for (let sent = 1; sent < 5; sent += 1) await client.post('/api/account/mail/code', undefined, 200)
    const problem = await client.refused(429, 'POST', '/api/account/mail/code')
    expect(problem.type).toContain('too-many-codes')
    expect(await world.mailsTo('victim@unit.example')).toHaveLength(4)
  })

  it('is confirmed by the code that was sent to it, and not by one of an address before', async () => {
    const client = await world.signedIn({ name: `person ${made++}` })
    await client.put('/api/account/mail/address', { address: 'mine@unit.example', password: PASSWORD }, 200)
    const [mail] = await world.mailsTo('mine@unit.example')
    // As where another is given between the look at the code and the confirmation, or while the mail is written.
    await world.sql("UPDATE mail_address SET address = 'yours@unit.example' WHERE address = 'mine@unit.example'")
    const code = codeIn(mail!)
    expect(await client.refused(422, 'POST', '/api/account/mail/confirm', { code })).toMatchObject({
      errors: [{ pointer: '/code' }],
    })
    expect((await client.get<OwnMail>('/api/account/mail')).state).toBe('unconfirmed')
  })

  it('loses its code after a day', async () => {
    const client = await world.signedIn({ name: 'late', roles: ['office'] })
    await client.put('/api/account/mail/address', { address: 'late@unit.example', password: PASSWORD }, 200)
    const code = codeIn((await world.mailsTo('late@unit.example'))[0]!)
    await world.sql(`UPDATE mail_code SET expires_at = $1`, [world.clock.now])
    expect((await client.refused(422, 'POST', '/api/account/mail/confirm', { code })).errors?.[0]?.rule).toBe('no-code')
  })

  it('that is changed is told so, and the new one waits to be confirmed', async () => {
    const { client, address, setting } = await candidate()
    await book(setting)
    await client.put('/api/account/mail/address', { address: 'next@unit.example', password: PASSWORD }, 200)
    expect((await world.mailsTo(address)).map(({ mail }) => mail.subject)).toEqual([
      'Reviewstand: mail no longer comes here',
    ])
    expect((await world.mailsTo('next@unit.example')).map(({ mail }) => mail.subject)).toEqual([
      'Reviewstand: confirm this address',
    ])
    expect((await client.tries('DELETE', '/api/account/mail/address')).status).toBe(204)
    expect(await stateOf(client)).toBe('none')
  })

  it.each([
    'Somebody <somebody@unit.example>',
    'a@unit.example, b@unit.example',
    'a@unit.example\r\nBcc: c@unit.example',
    'a@unit.example\nRCPT TO:<c@unit.example>',
    '"a b"@unit.example',
    'a@[127.0.0.1]',
    'ä@unit.example',
    'a@unit.example>',
    `${'a'.repeat(250)}@unit.example`,
    '',
  ])('%j is none', async (address) => {
    const problem = await world.office.refused(422, 'PUT', '/api/account/mail/address', { address, password: PASSWORD })
    expect(problem.errors?.[0]?.pointer).toBe('/address')
  })
})

describe('a booking', () => {
  it('is told at once to whom it concerns, in text and HTML that load nothing', async () => {
    const { address, setting } = await candidate()
    await book(setting)
    const [mail, ...more] = await world.mailsTo(address)
    expect(more).toEqual([])
    expect(mail!.to).toEqual([address])
    expect(mail!.from).toBe(SENDER)
    expect(mail!.mail.subject).toBe('Reviewstand: something changed that concerns you')
    expect(mail!.mail.text).toContain('You are booked for Short standard: Sat 20 June 2026, South Field.')
    expect(mail!.mail.html).toContain('You are booked for Short standard: Sat 20 June 2026, South Field.')
    expect(mail!.mail.text).toContain(`${ORIGIN}/test-days/`)
    expect(mail!.mail.text).toContain(`${ORIGIN}/account`)
    expect(mail!.mail.html).not.toMatch(/<img|<link|<script|src=|url\(|@import/i)
    expect(mail!.raw).toMatch(/^Auto-Submitted: auto-generated\r$/m)
    expect(mail!.mail.messageId).toMatch(/^<[\da-f-]{36}@unit\.example>$/)
    // Every link is to a page, and none has a key in it.
    const links = [...(mail!.mail.html || '').matchAll(/href="([^"]*)"/g)].map(([, link]) => link)
    expect(links.length).toBeGreaterThan(1)
    for (const link of links) expect(link).toMatch(/^https:\/\/review\.example\/(account|test-days\/[\da-f-]{36})$/)
    expect(await world.mailsTo(address)).toEqual([])
  })

  it('that is over before mail goes out is not told of; what came of it is', async () => {
    const { address, setting } = await candidate()
    const id = await book(setting)
    await world.office.tries('POST', `/api/bookings/${id}/cancel`, { reason: 'Rain' })
    const [mail] = await world.mailsTo(address)
    expect(mail!.mail.text).toContain('was cancelled')
    expect(mail!.mail.text).not.toContain('You are booked')
  })

  it('is not told to who wants none, and in the morning to who wants it daily', async () => {
    const never = await candidate()
    const daily = await candidate()
    await never.client.put('/api/account/mail/choices', { choices: [{ kind: 'bookings', timing: 'never' }] }, 200)
    await daily.client.put('/api/account/mail/choices', { choices: [{ kind: 'bookings', timing: 'daily' }] }, 200)
    await book(never.setting)
    await book(daily.setting)
    await book(daily.setting, '2026-06-25').catch(() => null)
    expect(await world.mailsTo(never.address)).toEqual([])
    expect(await world.mailsTo(daily.address)).toEqual([])
    world.wait(17.9)
    expect(await world.mailsTo(daily.address)).toEqual([])
    world.wait(0.2)
    const [mail, ...more] = await world.mailsTo(daily.address)
    expect(more).toEqual([])
    expect(mail!.mail.subject).toBe('Reviewstand: what is new, Wed 17 June 2026')
    expect(mail!.mail.text).toContain('You are booked for Short standard')
    expect(await world.mailsTo(never.address)).toEqual([])
  })

  it('that waits is not sent once its reader wants none, or has read it', async () => {
    const unsubscribed = await candidate()
    const reader = await candidate()
    await book(unsubscribed.setting)
    await book(reader.setting)
    server.refuse.sender.push('421 4.3.2 Not now')
    await world.round()
    await unsubscribed.client.put(
      '/api/account/mail/choices',
      { choices: [{ kind: 'bookings', timing: 'never' }] },
      200,
    )
    await reader.client.post('/api/notices/read', {}, 200)
    world.wait(1)
    expect(await world.mailsTo(unsubscribed.address)).toEqual([])
    expect(await world.mailsTo(reader.address)).toEqual([])
  })

  it('names nobody whom its reader may not see when it is sent', async () => {
    const setting = await makeTestSetting(world.office)
    const sponsor = await world.signedIn({ name: 'sponsor', roles: ['sponsor'], soldierId: setting.sponsorId })
    await world.confirm(sponsor, 'sponsor@unit.example')
    const other = await makeTestSetting(world.office, setting)
    await book(setting)
    await book(other)
    server.refuse.sender.push('421 4.3.2 Not now')
    await world.round()
    // Meanwhile the first candidate is given to another sponsor.
    const [{ id }] = (await world.sql<{ id: string }>(
      'UPDATE sponsorship SET to_day = $2::date WHERE candidate_id = $1 RETURNING id',
      [setting.candidateId, '2026-06-15'],
    )) as [{ id: string }]
    expect(id).toBeDefined()
    world.wait(1)
    const [mail] = await world.mailsTo('sponsor@unit.example')
    const nameOf = async (soldierId: string) =>
      (await world.office.get<{ givenName: string }>(`/api/soldiers/${soldierId}`)).givenName
    expect(mail!.mail.text).toContain(await nameOf(other.candidateId))
    expect(mail!.mail.text).not.toContain(`${await nameOf(setting.candidateId)}’`)
    expect(mail!.mail.text).not.toContain(`${await nameOf(setting.candidateId)} `)
    expect(mail!.mail.subject).not.toContain('Ashford')
  })

  it('cannot add headers, markup or other readers by a name or a place', async () => {
    const setting = await makeTestSetting(world.office)
    const evil = 'Ash\u202eford <b>&</b> Bcc: x@unit.example'
    await world.sql('UPDATE soldier SET family_name = $2 WHERE id = $1', [setting.candidateId, evil])
    const sponsor = await world.signedIn({ name: 'sponsor 2', roles: ['sponsor'], soldierId: setting.sponsorId })
    await world.confirm(sponsor, 'sponsor2@unit.example')
    await world.sql('UPDATE soldier SET given_name = $2 WHERE id = $1', [
      setting.candidateId,
      'A\r\nBcc: y@unit.example\r\n\r\nZ',
    ])
    await book(setting)
    const [mail, ...more] = await world.mailsTo('sponsor2@unit.example')
    expect(more).toEqual([])
    expect(mail!.to).toEqual(['sponsor2@unit.example'])
    expect([...mail!.mail.headers.keys()].sort()).toEqual([
      'auto-submitted',
      'content-type',
      'date',
      'from',
      'list',
      'message-id',
      'mime-version',
      'subject',
      'to',
    ])
    expect(mail!.mail.html).toContain('&lt;b&gt;&amp;&lt;/b&gt;')
    expect(mail!.mail.html).not.toMatch(/[\u202a-\u202e]|<b>/)
    expect(mail!.mail.text).toContain('A Bcc: y@unit.example Z')
  })
})

describe('a mail server that', () => {
  it('puts a mail off is asked again later, once it takes it the mail is there once', async () => {
    const { address, setting } = await candidate()
    await book(setting)
    server.refuse.recipient.push('450 4.2.1 Mailbox busy')
    server.refuse.content.push('', '451 4.3.0 Try again')
    expect(await world.mailsTo(address)).toEqual([])
    expect(await world.mailsTo(address)).toEqual([])
    expect(await status()).toMatchObject({ waiting: 0, problem: { text: '450 4.2.1 Mailbox busy' } })
    server.refuse.content.length = 0
    server.refuse.content.push('451 4.3.0 Try again')
    world.wait(1.1 / 60)
    expect(await world.mailsTo(address)).toEqual([])
    world.wait(4.9 / 60)
    expect(await world.mailsTo(address)).toEqual([])
    world.wait(0.2 / 60)
    expect(await world.mailsTo(address)).toHaveLength(1)
    expect(await world.mailsTo(address)).toEqual([])
  })

  it('is down costs no mail an attempt; what waits goes out once it is up', async () => {
    const { address, setting } = await candidate()
    const down = await startMailServer()
    const other = world.another(down.post())
    await down.close()
    await book(setting)
    await other.round()
    expect((await status()).waiting).toBeGreaterThan(0)
    expect((await status()).problem?.text).toContain('ECONNREFUSED')
    expect(
      await world.sql("SELECT 1 FROM mail WHERE state = 'waiting' AND due_at <= $1 AND attempts > 0", [
        world.clock.now,
      ]),
    ).toEqual([])
    const up = await startMailServer({ port: down.port })
    await other.round()
    expect(up.received).toEqual([])
    world.wait(1.1 / 60)
    await other.round()
    expect(up.received.filter(({ to }) => to.includes(address))).toHaveLength(1)
    await other.close()
    await up.close()
  })

  it('breaks off over one mail each time keeps no other back', async () => {
    const { accountId } = await admin.get<{ accountId: string }>('/api/session')
    const at = new Date('2026-06-01T00:00:00Z')
    const queued = [1, 2].map(() => queueMail(world.db, { accountId, kind: 'test', at, dueAt: at }))
    const ids = await Promise.all(queued)
    const later = (seconds: number) => new Date(world.clock.now.getTime() + seconds * 1000)
    const broken = { state: 'waiting', dueAt: at, attempts: 0, problem: '421 4.3.2 Closing' } as const
    const tried: string[] = []
    for (const seconds of [0, 1, 2, 3]) {
      const mail = (await claimMail(world.db, later(seconds), later(60)))!
      tried.push(mail.id)
      await endClaim(world.db, mail, broken)
    }
    expect(tried.slice(0, 2).sort()).toEqual(ids.sort())
    expect(tried.slice(2)).toEqual(tried.slice(0, 2))
    await world.sql('DELETE FROM mail WHERE id = ANY($1)', [ids])
  })

  it('puts it off for ever is left after three days, and the administrator is told', async () => {
    const { address, setting } = await candidate()
    await book(setting)
    const before = (await failures()).length
    let asked = 0
    for (; (await failures()).length === before && asked < 20; asked += 1) {
      server.refuse.recipient.push('450 4.2.1 Mailbox busy')
      await world.round()
      world.wait(12.1)
    }
    server.refuse.recipient.length = 0
    expect(asked).toBe(7)
    const [failed] = await failures()
    expect(failed).toMatchObject({ kind: 'news', address, isRefused: false, problem: '450 4.2.1 Mailbox busy' })
    await admin.post(`/api/mail/failures/${failed!.id}/retry`, undefined, 200)
    world.backToNow()
    expect(await world.mailsTo(address)).toHaveLength(1)
  })

  it('knows no such address stops mail to it until it is confirmed anew', async () => {
    const { client, address, setting } = await candidate()
    await book(setting)
    server.refuse.recipient.push('550 5.1.1 No such mailbox')
    expect(await world.mailsTo(address)).toEqual([])
    expect(await stateOf(client)).toBe('refused')
    const failed = (await failures()).find((one) => one.address === address)!
    expect(failed).toMatchObject({ isRefused: true, problem: '550 5.1.1 No such mailbox' })
    expect((await admin.refused(409, 'POST', `/api/mail/failures/${failed.id}/retry`)).type).toContain(
      'address-refused',
    )
    const cancelled = await world.sql<{ id: string }>('SELECT id FROM booking WHERE candidate_id = $1', [
      setting.candidateId,
    ])
    await world.office.tries('POST', `/api/bookings/${cancelled[0]!.id}/cancel`, { reason: 'Rain' })
    expect(await world.mailsTo(address)).toEqual([])

    await client.post('/api/account/mail/code', undefined, 200)
    const [code] = await world.mailsTo(address)
    expect(await client.post('/api/account/mail/confirm', { code: codeIn(code!) }, 200)).toMatchObject({
      state: 'confirmed',
    })
    expect(await admin.post(`/api/mail/failures/${failed.id}/retry`, undefined, 200)).toMatchObject({ on: true })
    expect((await world.mailsTo(address)).length).toBeLessThanOrEqual(1)
  })

  it('refuses what is in a mail fails that one alone; it can be dropped', async () => {
    const { client, address, setting } = await candidate()
    await book(setting)
    server.refuse.content.push('554 5.7.1 Not wanted')
    expect(await world.mailsTo(address)).toEqual([])
    expect(await stateOf(client)).toBe('confirmed')
    const failed = (await failures()).find((one) => one.address === address)!
    expect((await admin.tries('DELETE', `/api/mail/failures/${failed.id}`)).status).toBe(204)
    await admin.refused(404, 'DELETE', `/api/mail/failures/${failed.id}`)
    // And it is not queued once more by the notice it was about.
    expect(await world.mailsTo(address)).toEqual([])
  })
})

describe('an administrator', () => {
  it('sends a test to the own address alone, and sees no other business', async () => {
    expect((await admin.refused(409, 'POST', '/api/mail/test')).type).toContain('no-own-address')
    await world.confirm(admin, 'admin@unit.example')
    await admin.post('/api/mail/test', undefined, 200)
    const [mail] = await world.mailsTo('admin@unit.example')
    expect(mail!.mail.subject).toBe('Reviewstand: a test mail')
    expect((await admin.get<OwnMail>('/api/account/mail')).choices).toEqual([])
  })

  it('alone sees the queue', async () => {
    const { client } = await candidate()
    for (const one of [client, world.office]) {
      await one.refused(403, 'GET', '/api/mail')
      await one.refused(403, 'GET', '/api/mail/failures')
      await one.refused(403, 'POST', '/api/mail/test')
    }
  })
})

describe('two server processes', () => {
  it('send a mail once', async () => {
    const people = [await candidate(), await candidate(), await candidate(), await candidate()]
    for (const { setting } of people) await book(setting)
    const second = world.another()
    await Promise.all([world.round(), second.round(), world.round(), second.round()])
    await second.close()
    for (const { address } of people) expect(await world.mailsTo(address)).toHaveLength(1)
  })

  it('of which one died while it was sending lose nothing: the other sends it under the same Message-ID', async () => {
    const { address, setting } = await candidate()
    await world.round()
    await book(setting)
    const before = await world.sql<{ id: string }>("SELECT id FROM mail WHERE state = 'waiting' AND due_at <= $1", [
      world.clock.now,
    ])
    expect(before).toEqual([])
    const dying = world.another({ ...server.post(), send: () => new Promise<never>(() => {}) })
    void dying.round()
    const claimed = async () => (await world.sql<{ id: string }>('SELECT id FROM mail WHERE claim IS NOT NULL'))[0]?.id
    await expect.poll(claimed).toBeDefined()
    const id = await claimed()
    // Of two that are due at the same instant either is claimed first.
    const sent = async () =>
      (await world.mailsTo(address)).filter(({ mail }) => mail.messageId === `<${id}@unit.example>`).length
    expect(await sent()).toBe(0)
    world.wait(0.2)
    expect(await sent()).toBe(1)
    await dying.close()
  })
})

describe('what is done', () => {
  it('is forgotten after a week, and no name is kept in the queue', async () => {
    const [row] = await world.sql<{ all: string }>("SELECT string_agg(m::text, ' ') AS all FROM mail m")
    expect(row!.all).not.toContain('Ashford')
    world.wait(24 * 31)
    await world.round()
    expect(
      await world.sql("SELECT 1 FROM mail WHERE done_at < $1::timestamptz - interval '30 days'", [world.clock.now]),
    ).toEqual([])
  })
})

describe('an address is personal data', () => {
  it('that is in the extract, seen by nobody else, and gone with the removal', async () => {
    const { client, address, setting } = await candidate()
    await book(setting)
    await world.mailsTo(address)
    const { lists } = await client.get<{ lists: Record<string, unknown[]> }>(
      `/api/soldiers/${setting.candidateId}/extract`,
    )
    expect(lists.mail).toMatchObject([{ address, choices: {} }])
    const sent = lists.mailsToThem as { kind: string; state: string }[]
    expect(sent.map(({ kind, state }) => `${kind} ${state}`).sort()).toEqual(['code sent', 'news sent'])
    const { items } = await admin.get<{ items: object[] }>('/api/accounts?limit=500')
    expect(JSON.stringify(items)).not.toContain(address)

    await world.office.post(
      `/api/soldiers/${setting.candidateId}/changes`,
      { from: '2026-06-01', left: 'transferred' },
      200,
    )
    const { rosterNumber } = await world.office.get<{ rosterNumber: string }>(`/api/soldiers/${setting.candidateId}`)
    const body = { reason: 'Five years are over', confirmation: rosterNumber }
    await world.office.post(`/api/soldiers/${setting.candidateId}/removal`, body, 200)
    expect(await world.sql('SELECT 1 FROM mail_address WHERE address = $1', [address])).toEqual([])
    const left = await world.sql(
      `SELECT 1 FROM account a WHERE a.soldier_id = $1 AND (EXISTS (SELECT FROM mail m WHERE m.account_id = a.id)
        OR EXISTS (SELECT FROM mail_notice n WHERE n.account_id = a.id) OR EXISTS (SELECT FROM mail_choice c WHERE c.account_id = a.id))`,
      [setting.candidateId],
    )
    expect(left).toEqual([])
    expect(await world.sql("SELECT 1 FROM record_entry WHERE after::text LIKE '%' || $1 || '%'", [address])).toEqual([])
  })
})
