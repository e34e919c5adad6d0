// Compiles the server file by file into dist/run, so that it runs without a compiler in its memory.
import fs from 'node:fs'
import path from 'node:path'
import { build } from 'esbuild'

const project = path.resolve(import.meta.dirname, '../..')
const target = 'dist/run'
/** What runs before anything is compiled. */
const before = /(^|\/)(prepare[\w-]*|compile)\.mjs$/

const files = ['server', 'seed'].flatMap((folder) =>
  fs.readdirSync(path.join(project, folder), { recursive: true }).map((file) => path.posix.join(folder, slashed(file))),
)

fs.rmSync(path.join(project, target), { recursive: true, force: true })
await compile(/\.ts$/, '.js')
await compile(/\.mjs$/, '.mjs')
for (const file of files.filter((each) => /^server\/.*\/[^.]+\.json$/.test(each) && !/tsconfig/.test(each)))
  fs.cpSync(path.join(project, file), path.join(project, target, file))
const { imports } = JSON.parse(fs.readFileSync(path.join(project, 'package.json'), 'utf8'))
fs.writeFileSync(path.join(project, target, 'package.json'), JSON.stringify({ type: 'module', imports }))

function slashed(file) {
  return file.split(path.sep).join('/')
}

/** Each file by itself: what it imports stays an import, of the compiled file beside it. */
async function compile(pattern, ending) {
  await build({
    absWorkingDir: project,
    entryPoints: files.filter((file) => pattern.test(file) && !before.test(file)),
    outdir: target,
    outbase: '.',
    outExtension: { '.js': ending },
    bundle: true,
    format: 'esm',
    platform: 'node',
    target: 'node20.19',
    logLevel: 'warning',
    plugins: [{ name: 'files', setup: keepImports }],
  })
}

function keepImports({ onResolve, onLoad }) {
  // Threads load what reads TypeScript; compiled ones need none.
  onResolve({ filter: /^tsx\/esm\/api$/ }, () => ({ path: 'none', namespace: 'none' }))
  onLoad({ filter: /.*/, namespace: 'none' }, () => ({ contents: 'export const register = () => {}' }))
  onResolve({ filter: /.*/ }, ({ kind, path: named }) => {
    if (kind === 'entry-point') return undefined
    return { path: named.replace(/^([.#].*)\.ts$/, '$1.js'), external: true }
  })
}
