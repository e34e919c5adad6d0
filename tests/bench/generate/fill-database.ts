import pg from 'pg'
import { createRandom, type Random } from '../../../seed/generate/random.ts'
import { insertAccount } from '../../../server/accounts/db/accounts.db.ts'
import { hashPassword } from '../../../server/accounts/services/password.ts'
import type { StandardBody } from '../../../server/contract/standards/standards.ts'
import type { Catalogue } from '../../../server/db/catalogue.db.ts'
import { closeDatabase, type Database, openDatabase } from '../../../server/db/client.ts'
import type { Qualification } from '../../../server/domain/assessment/types.ts'
import { addMonths } from '../../../server/domain/calendar/add-months.ts'
import { addDays, type PlainDate } from '../../../server/domain/calendar/plain-date.ts'
import { ACCOUNT, GRADER } from '../account.ts'
import type { RecordSize } from '../record-size.ts'
import { type Establishment, makeEstablishment } from './establishment.ts'
import { insertCatalogue, readStandard } from './insert-catalogue.ts'
import { insertPeople, paperAwards } from './insert-people.ts'
import { insertRows } from './insert-rows.ts'
import { judgeCareer, qualificationBy } from './judge-career.ts'
import { recordWriter } from './record-writer.ts'
import { uuid } from './uuid.ts'
import { testDayFrom, writeCareer } from './write-career.ts'
import type { TestGround } from './write-sheet.ts'

interface Span {
  readonly from: PlainDate
  readonly to: PlainDate
}

export interface FilledRecord {
  readonly establishment: Establishment
  /** By battalion. */
  readonly grounds: readonly TestGround[]
}

/**
 * Fills a migrated, empty database with a record of a size that ends on a day. The same size, day and version of the
 * product give the same record, but for ids that the database gives.
 */
export async function fillDatabase(url: string, size: RecordSize, endsOn: PlainDate): Promise<FilledRecord> {
  const fast = new URL(url)
  fast.searchParams.set('options', '-c synchronous_commit=off')
  const db = openDatabase(fast.href)
  const client = new pg.Client({ connectionString: fast.href })
  await client.connect()
  try {
    const filled = await fill(db, client, size, { from: addMonths(endsOn, -12 * size.years), to: endsOn })
    await client.query('VACUUM (ANALYZE)')
    return filled
  } finally {
    await client.end()
    await closeDatabase(db)
  }
}

async function fill(db: Database, client: pg.Client, size: RecordSize, span: Span): Promise<FilledRecord> {
  const random = createRandom(size.sheets)
  const standard = await readStandard(span.from)
  const catalogue = await insertCatalogue(db, standard)
  const version = catalogue.standards.get(standard.code)![0]!
  const establishment = makeEstablishment(random, size, span)
  await insertPeople(client, establishment, span, { standard: standard.code, swordId: swordOf(catalogue) })
  const grounds = await insertGrounds(client, random, establishment, standard, span)
  const writer = recordWriter({ db, client, catalogue, version, byId: await insertOffice(db, span.from) })
  await insertGrader(db, span.from, grounds[0]!.graders[0]!)
  const people = peopleBefore(establishment, span, standard.code)
  const tested = inOrderOfTesting(establishment)
  const upTo = (index: number) => Math.floor((size.sheets * index) / tested.length)
  for (const [index, soldier] of tested.entries()) {
    const count = upTo(index + 1) - upTo(index)
    const career = writeCareer(random, grounds[soldier.battalion]!, soldier, { ...span, count })
    const judged = judgeCareer(catalogue, soldier, career, people)
    if (soldier.role === 'sponsor') people.set(soldier.id, qualificationBy(judged.assessment))
    await writer.add(soldier, career, judged)
  }
  await writer.finish()
  return { establishment, grounds }
}

const swordOf = ({ certifications }: Catalogue): string => certifications.find(({ code }) => code === 'sword')!.id

/** Battalion by battalion, sponsors first, for whether they were certified decides about the sheets of their candidates. */
function inOrderOfTesting({ battalions, soldiers }: Establishment) {
  return battalions.flatMap((_, battalion) => {
    const own = soldiers.filter((one) => one.battalion === battalion)
    return [
      ...own.filter(({ role }) => role === 'sponsor'),
      ...own.filter(({ role }) => role === 'grader' || role === 'candidate'),
    ]
  })
}

/** Who may grade and sponsor before anybody has tested. */
function peopleBefore({ soldiers }: Establishment, span: Span, standard: string): Map<string, Qualification> {
  const none = { awards: [], suspensions: [], appointments: [] }
  const paper = paperAwards(span).map((award, entry) => ({ ...award, certification: 'sword', madeBy: null, entry }))
  return new Map(
    soldiers.flatMap(({ id, role, joined }): [string, Qualification][] => {
      if (role === 'head') return [[id, { ...none, awards: paper }]]
      return role === 'grader' ? [[id, { ...none, appointments: [{ standard, from: joined, to: null }] }]] : []
    }),
  )
}

async function insertGrounds(
  client: pg.Client,
  random: Random,
  { battalions, soldiers }: Establishment,
  standard: StandardBody,
  span: Span,
): Promise<TestGround[]> {
  const grounds: TestGround[] = []
  for (const [battalion, unitId] of battalions.entries()) {
    const testDays = new Map<PlainDate, string>()
    for (let day = testDayFrom(span.from, battalion); day <= span.to; day = addDays(day, 7)) {
      testDays.set(day, uuid(random))
    }
    await insertRows(
      client,
      'test_day',
      { id: 'uuid', on_day: 'date', unit_id: 'uuid', place: 'text' },
      [...testDays].map(([day, id]) => ({ id, on_day: day, unit_id: unitId, place: 'Parade ground' })),
    )
    const graders = soldiers.filter((one) => one.battalion === battalion && one.role === 'grader').map(({ id }) => id)
    grounds.push({ standard, graders, testDays })
  }
  return grounds
}

async function insertGrader(db: Database, from: PlainDate, soldierId: string): Promise<void> {
  await insertAccount(db, {
    name: GRADER.name,
    passwordHash: await hashPassword(GRADER.password),
    roles: ['grader'],
    soldierId,
    unitId: null,
    createdAt: new Date(`${from}T00:00:00Z`),
  })
}

async function insertOffice(db: Database, from: PlainDate): Promise<string> {
  return insertAccount(db, {
    name: ACCOUNT.name,
    passwordHash: await hashPassword(ACCOUNT.password),
    roles: ['office', 'administrator'],
    soldierId: null,
    unitId: null,
    createdAt: new Date(`${from}T00:00:00Z`),
  })
}
