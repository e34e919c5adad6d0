import { once } from 'node:events'
import { parentPort } from 'node:worker_threads'
import { AppError } from '../errors.ts'
import { readParts } from './read-parts.ts'
import type { Asked, Said } from './reading-messages.ts'

const port = parentPort!
const say = (said: Said) => port.postMessage(said)

for (;;) {
  const [asked] = (await once(port, 'message')) as [Asked]
  try {
    for await (const part of readParts(asked)) {
      say(part)
      await once(port, 'message')
    }
    say({ done: true })
  } catch (error) {
    if (error instanceof AppError) say({ refused: { rule: error.rule, detail: error.message } })
    else say({ failed: error instanceof Error ? error.message : String(error) })
  }
}
