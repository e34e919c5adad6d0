import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { ArmsAndGrades } from '../../../server/contract/arms-and-grades/arms-and-grades.ts'
import type { Soldier } from '../../../server/contract/soldiers/soldiers.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { makeSoldier, makeUnit } from '../../support/factories.ts'
import { type Importer, makeImporter } from '../../support/import-file.ts'

let test: TestApp
let importer: Importer
beforeAll(async () => {
  test = await buildTestApp({ now: '2026-06-17T14:00:00Z' })
  importer = await makeImporter(test)
  const top = await makeUnit(test.office, { name: 'Calloway Point Ceremonial Battalion' })
  for (const name of ['A Company', 'B Company']) {
    const parentId = await makeUnit(test.office, { name, kind: 'company', parentId: top, timeZone: null })
    await makeUnit(test.office, { name: '4th Platoon', kind: 'platoon', parentId, timeZone: null })
    if (name === 'A Company') {
      await makeSoldier(test.office, parentId, {
        rosterNumber: '1007',
        grade: 'SGT',
        arms: ['sword'],
        familyName: 'Amadi',
        givenName: 'Rafe',
      })
    }
  }
})
afterAll(() => test?.close())

const HEADER = 'Roster number,Family name,Given name,Grade,Arms,Unit,From'
const table = (...rows: string[]) => [HEADER, ...rows].join('\n')
const outcomes = async (sent: Parameters<Importer['rows']>[0]) =>
  (await importer.rows(sent)).map(({ number, outcome, reasons }) => [number, outcome, reasons.join(' ')])
const soldier = async (number: string) =>
  (await test.office.get<{ items: Soldier[] }>(`/api/soldiers?q=${number}`)).items.find(
    ({ rosterNumber }) => rosterNumber === number,
  )

describe('two people under one roster number', () => {
  it('are refused where they stand in one file', async () => {
    const sent = await importer.send(
      table('2001,Brandt,Louisa,SGT,sword,A Company,2026-01-01', '2001,Nwosu,Ines,SGT,sword,A Company,2026-02-01'),
    )
    const checked = await importer.check(sent)
    expect(checked.counts).toMatchObject({ added: 0, refused: 2 })
    for (const [, , why] of await outcomes(sent)) {
      expect(why).toBe(
        'Row 2 says Brandt, Louisa and row 3 says Nwosu, Ines under the number 2001. One number is one soldier: mend a number or a name.',
      )
    }
    await importer.store(checked, true)
    expect(await soldier('2001')).toBeUndefined()
  })

  it('are refused where rows differ in the given name alone, and letter case is no difference', async () => {
    const sent = await importer.send(
      table(
        '2002,Brandt,Louisa,SGT,sword,A Company,2026-01-01',
        '2002,Brandt,Luise,SGT,sword,A Company,2026-02-01',
        '2003,OKONJO,Sela,SGT,sword,A Company,2026-01-01',
        '2003,Okonjo,SELA,SGT,,A Company,2026-02-01',
      ),
    )
    expect((await importer.check(sent)).counts).toMatchObject({ added: 1, unchanged: 1, refused: 2 })
  })
})

describe('a name that is not the one on the roster', () => {
  const file = table('1007,Amadi,Raphael,SGT,sword,A Company,2026-03-01')
  const question = {
    key: 'name:1007:Amadi, Raphael',
    about: 'name',
    known: 'Amadi, Rafe',
    given: 'Amadi, Raphael',
    rosterNumber: '1007',
    choices: ['as-here', 'as-given', 'leave-out'],
    rows: 1,
    firstRows: [2],
  }

  it('is asked about with both beside each other, and changes nothing until it is answered', async () => {
    const sent = await importer.send(file)
    const checked = await importer.check(sent)
    expect(checked.questions).toEqual([{ ...question, answer: null }])
    expect(checked.counts).toMatchObject({ changed: 0, refused: 1 })
    await importer.store(checked, true)
    expect(await soldier('1007')).toMatchObject({ givenName: 'Rafe' })
  })

  it.each([
    ['as-here', 'unchanged', 'Rafe'],
    ['leave-out', 'refused', 'Rafe'],
    ['as-given', 'changed', 'Raphael'],
  ])('answered %s is %s', async (answer, outcome, givenName) => {
    const sent = await importer.send(file)
    const checked = await importer.check(sent, { answers: { [question.key]: answer } })
    expect(checked.questions).toEqual([{ ...question, answer }])
    expect((await importer.rows(sent))[0]).toMatchObject({ outcome })
    expect((await importer.store(checked, true)).state).toBe('stored')
    expect(await soldier('1007')).toMatchObject({ givenName })
  })

  it('is no question where only letter case differs', async () => {
    const sent = await importer.send(table('1007,AMADI,RAPHAEL,SGT,sword,A Company,2026-03-01'))
    expect((await importer.check(sent)).questions).toEqual([])
  })
})

describe('a grade or arm that the lists do not have', () => {
  const file = table(
    '2010,Quintrell,Bram,SGTT,sword;helberd,A Company,2026-01-01',
    '2011,Ashdown,Mirela,SGTT,sword,A Company,2026-01-01',
  )
  const lists = async () => {
    const { grades, arms } = await test.office.get<ArmsAndGrades>('/api/arms-and-grades')
    return [...grades, ...arms].map(({ code, confirmed }) => `${code}${confirmed ? '' : '?'}`)
  }

  it('is asked about once, the ones most alike first, and nothing of it is stored until then', async () => {
    const sent = await importer.send(file)
    const checked = await importer.check(sent, { answers: { none: 'add' } })
    expect(checked.questions.map(({ key, rows, choices }) => [key, rows, choices.slice(0, 3)])).toEqual([
      ['grade:SGTT', 2, ['add', 'leave-out', 'as:SGT']],
      ['arm:helberd', 1, ['add', 'leave-out', 'as:sword']],
    ])
    expect(checked.counts).toMatchObject({ added: 0, refused: 2 })
    expect(await lists()).toEqual(['SGT?', 'sword?'])
  })

  it('is read as one of the list, or goes into it, as was said', async () => {
    const sent = await importer.send(file)
    const checked = await importer.check(sent, { answers: { 'grade:SGTT': 'as:SGT', 'arm:helberd': 'add' } })
    expect(checked.counts).toMatchObject({ added: 2, refused: 0 })
    expect(await lists()).toEqual(['SGT?', 'sword?'])
    expect((await importer.store(checked)).state).toBe('stored')
    expect(await soldier('2010')).toMatchObject({ grade: 'SGT', arms: ['sword', 'helberd'] })
    expect(await lists()).toEqual(['SGT?', 'sword?', 'helberd'])
  })

  it('is not taken where the answer is none that was offered', async () => {
    const sent = await importer.send(table('2012,Ashdown,Mirela,XYZ,sword,A Company,2026-01-01'))
    const checked = await importer.check(sent, { answers: { 'grade:XYZ': 'as:NONE' } })
    expect(checked.questions[0]).toMatchObject({ answer: null })
    expect(checked.counts).toMatchObject({ refused: 1 })
  })
})

describe('what a row says', () => {
  it('names a unit as the pages do', async () => {
    const sent = await importer.send(
      table(
        '2020,Hale,Una,SGT,sword,"4th Platoon, A Company",2026-01-01',
        '2021,Hale,Ivo,SGT,sword,"4th Platoon,B Company, Calloway Point Ceremonial Battalion",2026-01-01',
        '2022,Hale,Ada,SGT,sword,"4th Platoon, C Company",2026-01-01',
      ),
    )
    expect((await importer.check(sent)).counts).toMatchObject({ added: 2, refused: 1 })
  })

  it('is wrong in words, all of it at once', async () => {
    const sent = await importer.send(table('2030,Hale,Una,S GT,sword!,Z Company,31.02.2026'))
    await importer.check(sent)
    const [, outcome, why] = (await outcomes(sent))[0]!
    expect(outcome).toBe('refused')
    for (const part of ['Grade: A code has', 'Arms, number 1: A code has', 'From']) expect(why).toContain(part)
    const other = await importer.send(table('2031,Hale,Una,SGGT,sword,Z Company,2026-01-01'))
    await importer.check(other, { answers: { none: 'add' } })
    expect((await outcomes(other))[0]![2]).toBe(
      'The list of grades has no SGGT. Say whether it is new, or which one is meant. There is no unit "Z Company". Mend the name, or give the path from the top to add it.',
    )
  })

  it('of JSON has no path of a program in it', async () => {
    const items = [
      { title: 'Dawn', startsAt: 'soon', endsAt: 7, posts: [{ title: 'Guard', row: 0, place: 1, maxHeightCm: 900 }] },
    ]
    const sent = await importer.send(JSON.stringify(items), 'c.json')
    await importer.check(sent, { kind: 'ceremonies' })
    const why = (await importer.rows(sent))[0]!.reasons
    expect(why.length).toBeGreaterThan(3)
    for (const reason of why) expect(reason).not.toMatch(/[a-z]+\.\d|\/\w|[a-z][A-Z]|Invalid|expected|received/)
  })

  it('is refused where rows contradict each other about one day', async () => {
    const sent = await importer.send(
      table('2040,Hale,Una,SGT,sword,A Company,2026-01-01', '2040,Hale,Una,SGT,sword,B Company,2026-01-01'),
    )
    expect((await importer.check(sent)).counts).toMatchObject({ added: 0, refused: 2 })
  })
})
