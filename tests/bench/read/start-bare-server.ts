import { fork } from 'node:child_process'
import { once } from 'node:events'
import path from 'node:path'

export interface BareServer {
  readonly url: string
  readonly pid: number
  end(): Promise<void>
}

/** Starts the bare server on a database, as its own process. */
export async function startBareServer(databaseUrl: string): Promise<BareServer> {
  const child = fork(path.resolve(import.meta.dirname, '../bare-server.ts'), [], { execArgv: ['--import', 'tsx'] })
  const ended = once(child, 'exit')
  child.send(databaseUrl)
  const url = await Promise.race([once(child, 'message').then(([address]) => String(address)), ended.then(() => null)])
  if (url === null) throw new Error('The bare server did not start.')
  return {
    url,
    pid: child.pid!,
    async end() {
      child.kill('SIGKILL')
      await ended
    },
  }
}
