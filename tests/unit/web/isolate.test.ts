import fs from 'node:fs'
import path from 'node:path'
import { afterEach, expect, it, vi } from 'vitest'
import { z } from 'zod'
import type { Endpoint } from '../../../server/contract/endpoint.ts'
import { isolated, withoutIsolates } from '../../../server/domain/calendar/isolate.ts'
import { call } from '../../../web/api/client.ts'

const Thing = z.object({ familyName: z.string(), givenName: z.string(), note: z.string(), n: z.int() })
const getThing = 'GET /api/thing' as Endpoint<{ answer: typeof Thing }>
const saveThing = 'PUT /api/thing' as Endpoint<{ body: typeof Thing }>

const web = path.resolve(import.meta.dirname, '../../../web')

/** The files of the pages in which something stands. */
const textOf = (pattern: RegExp): string[] =>
  fs
    .readdirSync(web, { recursive: true, encoding: 'utf8' })
    .filter((file) => /\.tsx?$/.test(file))
    .filter((file) => pattern.test(fs.readFileSync(path.join(web, file), 'utf8')))

afterEach(() => {
  vi.unstubAllGlobals()
})

// Unicode Standard Annex 9, 2.4: U+2068 begins an isolate, U+2069 ends it.
it.each([
  ['SGT כהן, דוד, 5 Dec 2026, row 7', 'SGT \u2068כהן, דוד\u2069, 5 Dec 2026, row 7'],
  ['CPL عمر 12 of 13', 'CPL \u2068عمر\u2069 12 of 13'],
  ['Amadi, Rafe', 'Amadi, Rafe'],
  ['', ''],
])('%s is isolated', (text, said) => {
  expect(isolated(text)).toBe(said)
  expect(withoutIsolates(said)).toBe(text)
  expect(isolated(said)).toBe(said)
})

it('whatever an answer says is isolated, and goes back as it was entered', async () => {
  const person = { familyName: 'כהן', givenName: 'דוד', note: 'א "ב"\n7', n: 7 }
  const sent: string[] = []
  vi.stubGlobal('fetch', async (_url: string, { body }: { body?: string }) => {
    if (body !== undefined) sent.push(body)
    return new Response(JSON.stringify(person))
  })
  const answer = await call(getThing)
  expect(answer).toEqual({
    familyName: '\u2068כהן\u2069',
    givenName: '\u2068דוד\u2069',
    note: '\u2068א\u2069 "\u2068ב\u2069"\n7',
    n: 7,
  })
  await call(saveThing, { body: answer })
  expect(JSON.parse(sent[0]!)).toEqual(person)
})

it('nothing that the server wrote into the page is read but isolated', () => {
  const reading = textOf(/JSON\.parse\((?!isolated\()/)
  // What was typed on this page, a sheet or a draft of it, and how the grader likes the screen: none of it from elsewhere.
  expect(reading.sort()).toEqual([
    'app/typed-fields.ts',
    'features/sheets/enter/entry-store.ts',
    'features/sheets/grade/settings.ts',
    'features/standards/editor/draft-keeper.ts',
    'features/standards/editor/kept-drafts.ts',
  ])
})

it('no page asks the server but through the client that isolates', () => {
  const asking = textOf(/\bfetch\(|\.json\(\)/)
  // One looks at the type of a refusal alone. The other asks for the page itself, which holds nobody's name, and reads its script's address.
  expect(asking.sort()).toEqual(['api/client.ts', 'api/identity.ts', 'app/newer-version.ts'])
})
