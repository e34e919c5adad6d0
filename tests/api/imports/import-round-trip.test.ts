import { describe, expect, it } from 'vitest'
import type { Import } from '../../../server/contract/imports/imports.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { carryOver, makeCertification, makeTestSetting, putSheet } from '../../support/factories.ts'
import { makeImporter } from '../../support/import-file.ts'

const KINDS = ['standards', 'roster', 'awards', 'sponsorships', 'appointments', 'sheets', 'ceremonies'] as const

async function all(test: TestApp): Promise<Record<string, string>> {
  const files: Record<string, string> = {}
  for (const kind of KINDS) {
    const format = kind === 'standards' ? 'json' : 'csv'
    const { status, body } = await test.office.tries('GET', `/api/import-templates/${kind}?format=${format}&filled=yes`)
    expect(status).toBe(200)
    files[kind] = typeof body === 'string' ? body : JSON.stringify(body)
  }
  return files
}

describe('what is here, taken out and in again', () => {
  it('changes nothing where it came from, and makes the same of an empty record', async () => {
    const test = await buildTestApp()
    const empty = await buildTestApp()
    try {
      const setting = await makeTestSetting(test.office)
      const { candidateId, graderId, unitId, certification, standard } = setting
      await putSheet(test.office, setting.sheet({ notes: '=SUM(1;2) "quoted"\nsecond line' }))
      await putSheet(
        test.office,
        setting.sheet({
          majors: [],
          minors: [],
          outcomeOnly: 'NO-GO',
          startedAt: '2026-03-12T09:00:00Z',
          finishedAt: '2026-03-12T09:30:00Z',
        }),
      )
      await test.office.post(
        `/api/soldiers/${candidateId}/changes`,
        { from: '2026-02-01', grade: 'SSG', arms: ['saber'] },
        200,
      )
      await test.office.post(`/api/soldiers/${candidateId}/appointments`, {
        standard,
        from: '2026-01-01',
        to: '2026-12-31',
      })
      await carryOver(test.office, candidateId, certification, { awardedOn: '2020-01-01', validThrough: '2020-12-31' })
      await test.office.post('/api/ceremonies', {
        title: 'Parade',
        unitId,
        startsAt: '2026-07-01T10:00:00Z',
        endsAt: '2026-07-01T11:00:00Z',
        posts: [{ title: 'Right', row: 1, place: 1, certification, soldierId: graderId }],
      })
      const files = await all(test)

      const importer = await makeImporter(test)
      for (const kind of KINDS) {
        const again = await importer.check(await importer.send(files[kind]!), { kind })
        expect(again.counts, kind).toMatchObject({ added: 0, changed: 0, held: 0, refused: 0 })
      }
      const other = await makeImporter(empty)
      for (const kind of KINDS) {
        const checked = await other.check(await other.send(files[kind]!), { kind })
        expect(checked.counts, `${kind} ${JSON.stringify(await other.rows(checked))}`).toMatchObject({
          changed: 0,
          refused: 0,
        })
        expect((await other.store(checked)).state).toBe('stored')
        if (kind !== 'standards') continue
        const { items } = await empty.office.get<{ items: { id: string }[] }>('/api/standards')
        for (const { id } of items) await empty.office.post(`/api/standards/${id}/publish`, undefined, 200)
        await makeCertification(empty.office, { code: certification, standards: [standard] })
      }
      expect(await all(empty)).toEqual(files)
    } finally {
      await test.close()
      await empty.close()
    }
  })
})

describe('work on a file', () => {
  it('is refused where the file is larger than it may be, and read in parts where it is not', async () => {
    const test = await buildTestApp({ importMegabytes: 1 })
    const importer = await makeImporter(test)
    const row = (number: number) => `L${number},Ashford,${'x'.repeat(60)},SGT,Calloway Point,2024-01-01\n`
    const file = (rows: number) =>
      `Roster number,Family name,Given name,Grade,Unit,From\n${Array.from({ length: rows }, (_, index) => row(index)).join('')}`
    expect(await importer.refused(file(12_000))).toMatch(
      /^422 urn:reviewstand:problem:file-too-large .*larger than 1 MB/,
    )
    expect(await importer.send(file(9_000))).toMatchObject({ rows: 9_000 })
    await test.close()
  })

  it('is given up when that is asked for, and said to have ended when its server was killed', async () => {
    const test = await buildTestApp()
    const importer = await makeImporter(test)
    const rows = Array.from(
      { length: 20_000 },
      (_, index) => `G${index},Ashford,No. ${index},SGT,Calloway Point,2024-01-01`,
    )
    const sent = await importer.send(`Roster number,Family name,Given name,Grade,Unit,From\n${rows.join('\n')}`)
    await test.office.post(`/api/imports/${sent.id}/check`, { kind: 'roster' }, 202)
    await test.office.refused(409, 'DELETE', `/api/imports/${sent.id}`)
    await test.office.post(`/api/imports/${sent.id}/cancel`, {}, 200)
    await expect
      .poll(async () => (await test.office.get<Import>(`/api/imports/${sent.id}`)).state, { timeout: 60_000 })
      .toBe('cancelled')
    await test.sql("UPDATE import_job SET state = 'storing', beat_at = now() - interval '1 minute' WHERE id = $1", [
      sent.id,
    ])
    expect(await test.office.get<Import>(`/api/imports/${sent.id}`)).toMatchObject({
      state: 'failed',
      problem: expect.stringContaining('stopped in the middle'),
    })
    expect(await test.sql('SELECT 1 FROM soldier')).toEqual([])
    await test.close()
  })
})
