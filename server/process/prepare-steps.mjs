import { spawn } from 'node:child_process'
import { createHash } from 'node:crypto'
import fs from 'node:fs'
import path from 'node:path'
import { pathToFileURL } from 'node:url'
import { withPrepareLock } from './prepare-lock.mjs'

const project = path.resolve(import.meta.dirname, '../..')
const inProject = (file) => path.join(project, file)

/** Each step is done when its stamp holds the fingerprint of all it depends on. Later steps need the earlier ones. */
const steps = [
  {
    says: 'Installing packages (npm ci) …',
    failed: 'The packages could not be installed; see above. Reviewstand needs the npm registry for this, once.',
    stamp: 'node_modules/.reviewstand-installed',
    fingerprint: () =>
      fingerprint(['package-lock.json'], installedBy(), process.version, process.platform, process.arch),
    run: () => npm(['ci', '--include=dev', '--ignore-scripts=false', '--no-audit', '--no-fund', '--loglevel=error']),
  },
  {
    says: 'Generating the database client …',
    failed: 'The database client could not be generated from prisma/schema.prisma; see above.',
    stamp: 'server/db/generated/.made-from',
    fingerprint: () => fingerprint(['prisma/schema.prisma', 'package-lock.json']),
    run: () =>
      run(process.execPath, ['node_modules/prisma/build/index.js', 'generate'], {
        // The engine that migrates is not needed to generate; any program in its place keeps it from being downloaded.
        PRISMA_SCHEMA_ENGINE_BINARY: process.execPath,
        CHECKPOINT_DISABLE: '1',
        PRISMA_HIDE_UPDATE_MESSAGE: '1',
      }),
  },
  {
    says: 'Compiling the server …',
    failed: 'The server could not be compiled; see above.',
    stamp: 'dist/run/made-from',
    fingerprint: () => fingerprint(['server', 'seed', 'prisma/schema.prisma', 'package-lock.json'], installedBy()),
    run: () => run(process.execPath, ['server/process/compile.mjs'], {}),
  },
  {
    says: 'Building the web pages …',
    failed: 'The web pages could not be built; see above.',
    stamp: 'dist/web-made-from',
    fingerprint: () =>
      fingerprint(['web', 'server/contract', 'server/domain', 'package.json', 'vite.config.ts', 'package-lock.json']),
    run: () => run(process.execPath, ['node_modules/vite/bin/vite.js', 'build', '--logLevel', 'warn'], {}),
  },
]

/** @param scriptAndArguments what to run afterwards; empty: nothing */
export async function prepareAndRun([script, ...args]) {
  if (!steps.every(isDone)) await withPrepareLock(inProject('dist/prepare-lock'), doSteps)
  if (script === undefined || process.exitCode) return
  if (process.env.npm_lifecycle_event !== undefined) endWithShell()
  process.argv = [process.execPath, inProject(script), ...args]
  await import(pathToFileURL(await readable(script)).href)
}

/** What is of the server runs as compiled, with no compiler in its memory; tests and tools are read as they are. */
async function readable(script) {
  if (script.startsWith('server/')) return inProject(`dist/run/${script.replace(/\.ts$/, '.js')}`)
  const { register } = await import('tsx/esm/api')
  register()
  return inProject(script)
}

/**
 * npm runs a script through a shell, and when npm is told to end, it tells that shell, which goes without telling us: so
 * its going is taken as the signal. (Ctrl-C at a terminal reaches us by itself.)
 */
function endWithShell() {
  const shell = process.ppid
  setInterval(() => {
    if (process.ppid !== shell) process.kill(process.pid, 'SIGTERM')
  }, 500).unref()
}

async function doSteps() {
  for (const step of steps.filter((each) => !isDone(each))) {
    console.log(step.says)
    const { code, printed } = await step.run()
    if (code !== 0) {
      console.error(`${printed.trim()}\n${step.failed}`)
      process.exitCode = 1
      return
    }
    fs.mkdirSync(path.dirname(inProject(step.stamp)), { recursive: true })
    fs.writeFileSync(inProject(step.stamp), step.fingerprint())
  }
}

function isDone({ stamp, fingerprint }) {
  return fs.existsSync(inProject(stamp)) && fs.readFileSync(inProject(stamp), 'utf8') === fingerprint()
}

/** SHA-256 over files, whole folders and words. Times of files say nothing after a checkout. */
function fingerprint(paths, ...words) {
  const hash = createHash('sha256').update(words.join('\n'))
  for (const file of paths.flatMap(filesUnder).sort())
    hash.update(`\n${file}\n`).update(fs.readFileSync(inProject(file)))
  return hash.digest('hex')
}

function filesUnder(name) {
  const found = fs.statSync(inProject(name), { throwIfNoEntry: false })
  if (!found?.isDirectory()) return found ? [name] : []
  return fs.readdirSync(inProject(name)).flatMap((entry) => filesUnder(`${name}/${entry}`))
}

/** The parts of package.json that decide what is installed. */
function installedBy() {
  const whole = JSON.parse(fs.readFileSync(inProject('package.json'), 'utf8'))
  const { dependencies, devDependencies, optionalDependencies, overrides, allowScripts } = whole
  return JSON.stringify({ dependencies, devDependencies, optionalDependencies, overrides, allowScripts })
}

/** Started by npm, the same npm; else the one on the path. */
function npm(args) {
  const cli = process.env.npm_execpath
  return cli?.endsWith('.js') ? run(process.execPath, [cli, ...args], {}) : run('npm', args, {})
}

/** @returns its exit code and all it printed */
function run(program, args, extra) {
  const env = { ...process.env, NO_COLOR: '1', ...extra }
  delete env.NODE_ENV // "production" would leave out what tests need, "test" would build the slow pages.
  return new Promise((resolve) => {
    const child = spawn(program, args, {
      cwd: project,
      env,
      stdio: ['ignore', 'pipe', 'pipe'],
      shell: process.platform === 'win32' && program === 'npm',
    })
    let printed = ''
    for (const stream of [child.stdout, child.stderr])
      stream.setEncoding('utf8').on('data', (text) => (printed += text))
    child.on('error', (error) => resolve({ code: 1, printed: `${program}: ${error.message}` }))
    child.on('close', (code) => resolve({ code, printed }))
  })
}
