import fs from 'node:fs'
import { z } from 'zod'

export interface Tally {
  passed: number
  failed: number
}

const report = z.object({
  numPassedTests: z.int(),
  numFailedTests: z.int(),
  testResults: z.array(z.object({ status: z.string(), assertionResults: z.array(z.object({ status: z.string() })) })),
})

/**
 * Counts the tests in vitest's JSON report. A file that failed without one of its tests having failed (it could not be
 * read, or its clean-up broke) counts as one failure; so does a run that wrote no report, ran no test, or ended with an
 * error that no test shows.
 * @param exitCode of vitest
 */
export function readReport(file: string, exitCode: number): Tally {
  if (!fs.existsSync(file)) return { passed: 0, failed: 1 }
  const { numPassedTests, numFailedTests, testResults } = report.parse(JSON.parse(fs.readFileSync(file, 'utf8')))
  const brokenFiles = testResults.filter(
    ({ status, assertionResults }) => status === 'failed' && !assertionResults.some((each) => each.status === 'failed'),
  )
  const failed = numFailedTests + brokenFiles.length
  const isSilentFailure = failed === 0 && (exitCode !== 0 || numPassedTests === 0)
  return { passed: numPassedTests, failed: isSilentFailure ? 1 : failed }
}
