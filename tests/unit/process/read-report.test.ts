import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { afterEach, beforeEach, expect, it } from 'vitest'
import { readReport } from '../../support/read-report.ts'

let folder: string
beforeEach(() => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), 'reviewstand-report-'))
})
afterEach(() => fs.rmSync(folder, { recursive: true }))

function reportOf(files: { status: string; tests: string[] }[]) {
  const count = (status: string) => files.flatMap(({ tests }) => tests).filter((test) => test === status).length
  const file = path.join(folder, 'report.json')
  fs.writeFileSync(
    file,
    JSON.stringify({
      numPassedTests: count('passed'),
      numFailedTests: count('failed'),
      testResults: files.map(({ status, tests }) => ({
        status,
        assertionResults: tests.map((test) => ({ status: test })),
      })),
    }),
  )
  return file
}

it('counts passed and failed tests', () => {
  const file = reportOf([
    { status: 'passed', tests: ['passed', 'passed', 'skipped'] },
    { status: 'failed', tests: ['passed', 'failed'] },
  ])
  expect(readReport(file, 1)).toEqual({ passed: 3, failed: 1 })
})

it('counts a file that broke outside its tests', () => {
  const file = reportOf([
    { status: 'failed', tests: [] },
    { status: 'failed', tests: ['passed'] },
  ])
  expect(readReport(file, 1)).toEqual({ passed: 1, failed: 2 })
})

it('takes no test, no report and an error without a test for a failure', () => {
  expect(readReport(reportOf([]), 0)).toEqual({ passed: 0, failed: 1 })
  expect(readReport(reportOf([{ status: 'passed', tests: ['passed'] }]), 1)).toEqual({ passed: 1, failed: 1 })
  expect(readReport(path.join(folder, 'none.json'), 0)).toEqual({ passed: 0, failed: 1 })
})
