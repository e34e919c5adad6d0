import { afterAll, beforeAll, expect, it } from 'vitest'
import type { VoidFindings } from '../../../server/contract/findings/voids.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { makeTestSetting, putSheet } from '../../support/factories.ts'
import { times } from '../../support/sheet-body.ts'

let test: TestApp
beforeAll(async () => {
  test = await buildTestApp()
})
afterAll(() => test.close())

it('counts void tests by grader, and those that came after a failure', async () => {
  const setting = await makeTestSetting(test.office)
  const weather = { kind: 'weather', text: '' } as const
  const blank = { majors: [], minors: [], void: weather }
  await putSheet(test.office, setting.sheet({ ...times('2026-03-02', 8), ...blank }))
  const failed = { majors: [{ code: 'composure', mark: 'NO-GO', atCall: 0 } as const], minors: [], void: weather }
  await putSheet(test.office, setting.sheet({ ...times('2026-03-03', 8), ...failed }))
  await putSheet(test.office, setting.sheet(times('2026-03-04', 8)))
  const { items } = await test.office.get<VoidFindings>(`/api/findings/voids?unitId=${setting.unitId}`)
  expect(items).toMatchObject([{ graderId: setting.graderId, grade: 'SGT', voids: 2, afterFailure: 1 }])
  const later = await test.office.get<VoidFindings>('/api/findings/voids?from=2026-03-03')
  expect(later.items).toMatchObject([{ voids: 1, afterFailure: 1 }])
})
