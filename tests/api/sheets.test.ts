import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { buildTestApp, type TestApp } from '../support/build-test-app.ts'
import { makeTestSetting, putSheet } from '../support/factories.ts'

describe('a sheet', () => {
  let test: TestApp
  beforeAll(async () => {
    test = await buildTestApp()
  })
  afterAll(() => test.close())
  it('counts', async () => {
    const setting = await makeTestSetting(test.office)
    const sheet = await putSheet(test.office, setting.sheet())
    expect(sheet).toMatchObject({ state: 'counted', violations: [] })
  })
})
