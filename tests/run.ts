import { spawn } from 'node:child_process'
import { once } from 'node:events'
import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { readReport, type Tally } from './support/read-report.ts'

const project = path.dirname(import.meta.dirname)
const reports = fs.mkdtempSync(path.join(os.tmpdir(), 'reviewstand-report-'))
const report = path.join(reports, 'report.json')
const unanswered = path.join(reports, 'unanswered.txt')

/** What `npm test` and `npm run check` do. With names of files or folders (`npm test -- tests/api`) only those tests run. */
const options = process.argv.slice(2)
const isQuick = options.includes('--quick')
const filters = options.filter((option) => option !== '--quick')

const checks = [
  { title: 'Types of the server, which sees no browser', tool: 'typescript/bin/tsc', args: ['-p', 'server'] },
  { title: 'Types of the browser, which sees no Node', tool: 'typescript/bin/tsc', args: ['-p', 'web'] },
  { title: 'Types of the tests, which see both', tool: 'typescript/bin/tsc', args: [] },
  { title: 'Lint and format', tool: '@biomejs/biome/bin/biome', args: ['ci', '--colors=off'] },
  ...(isQuick
    ? []
    : [
        { title: 'Unused code', tool: 'knip/bin/knip.js', args: ['--no-progress'] },
        { title: 'Code that only tests use', tool: 'knip/bin/knip.js', args: ['--no-progress', '--production'] },
      ]),
]

const tallies: Tally[] = []
for (const { title, tool, args } of filters.length > 0 ? [] : checks) {
  const code = await run(title, tool, args)
  tallies.push(code === 0 ? { passed: 1, failed: 0 } : { passed: 0, failed: 1 })
}
const vitest = ['run', '--reporter=default', '--reporter=json', `--outputFile.json=${report}`, ...filters]
const code = await run('Tests', 'vitest/vitest.mjs', isQuick ? [...vitest, '--project=unit*'] : vitest)
tallies.push(readReport(report, code))
if (filters.length === 0 && fs.existsSync(unanswered)) tellUnanswered(fs.readFileSync(unanswered, 'utf8'))
fs.rmSync(reports, { recursive: true })

const passed = tallies.reduce((sum, tally) => sum + tally.passed, 0)
const failed = tallies.reduce((sum, tally) => sum + tally.failed, 0)
console.log(`\n${passed} passed, ${failed} failed`)
process.exitCode = failed === 0 ? 0 : 1

async function run(title: string, tool: string, args: string[]): Promise<number> {
  console.log(`\n${title} …`)
  const script = path.join(project, 'node_modules', tool)
  const child = spawn(process.execPath, [script, ...args], {
    cwd: project,
    env: { ...process.env, UNANSWERED: unanswered },
    stdio: ['ignore', 'inherit', 'inherit'],
  })
  const [exitCode] = (await once(child, 'close')) as [number | null]
  return exitCode ?? 1
}

/** @param list places, one a line */
function tellUnanswered(list: string): void {
  const places = list.split('\n').filter(Boolean)
  console.log(
    `\nRaw queries whose rows no test has seen: ${places.length}${places.map((each) => `\n  ${each}`).join('')}`,
  )
}
