import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import path from 'node:path'
import { COMPILED_MAIN } from './compile-server.ts'

const project = path.resolve(import.meta.dirname, '../..')

export interface Product {
  /** Where it says it is open, like `http://127.0.0.1:40123`. */
  url: string
  process: ChildProcess
  /** Everything printed so far. */
  printed(): string
  /** Sends a signal and waits for the end; answers the exit code (null: killed). */
  end(signal: NodeJS.Signals): Promise<number | null>
}

/** What a product that never listened said, and its exit code. */
export interface Refusal {
  printed: string
  code: number | null
}

/**
 * Starts the product as its own process on a free port, compiled as `npm start` runs it, with these settings and nothing else in its environment, and
 * waits until it is open.
 * @throws Error with what it printed, when it ends instead
 */
export async function startProduct(settings: Record<string, string>): Promise<Product> {
  const { child, printed, ended } = launch(settings)
  const opened = new Promise<string>((resolve) => {
    child.stdout!.on('data', () => {
      const url = /is open at (\S+).*Ctrl-C stops it\./s.exec(printed())?.[1]
      if (url !== undefined) resolve(url)
    })
  })
  const url = await Promise.race([opened, ended.then(() => null)])
  if (url === null) throw new Error(`The product did not start:\n${printed()}`)
  return {
    url,
    process: child,
    printed,
    async end(signal) {
      child.kill(signal)
      return ended
    },
  }
}

/** Starts one that is expected not to get as far as listening. */
export async function startRefused(settings: Record<string, string>): Promise<Refusal> {
  const { printed, ended } = launch(settings)
  const code = await ended
  return { printed: printed(), code }
}

const running = new Set<{ child: ChildProcess; ended: Promise<unknown> }>()

/** Kills what this test file has started and not ended, whether it came to listening or not. */
export async function killProducts(): Promise<void> {
  for (const { child, ended } of running) {
    child.kill('SIGKILL')
    await ended
  }
}

function launch(settings: Record<string, string>) {
  const child = spawn(process.execPath, [COMPILED_MAIN], {
    cwd: project,
    env: { PORT: '0', ...settings },
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  let text = ''
  for (const stream of [child.stdout!, child.stderr!]) {
    stream.setEncoding('utf8').on('data', (part: string) => {
      text += part
    })
  }
  const ended = once(child, 'close').then(([code]) => code as number | null)
  const entry = { child, ended }
  running.add(entry)
  void ended.then(() => running.delete(entry))
  return { child, ended, printed: () => text }
}
