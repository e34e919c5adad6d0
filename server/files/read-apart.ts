import { once } from 'node:events'
import { Worker } from 'node:worker_threads'
import type { Asked, Part, Said } from './reading-messages.ts'
import { readingGivenUp } from './refusals.ts'
import { notReadable } from './sniff-format.ts'

/** Of a file that is read apart, piece by piece. */
export interface FileRead {
  readonly parts: AsyncGenerator<Part, void>
  /** Ends the reading, wherever it is. */
  close(): void
}

/** A file of the largest size takes some hundred megabytes; what takes more is no table. */
const MOST_MEGABYTES = 768
/** So long a reader may be silent; a piece of a file takes it some hundredths of a second. */
const SILENCE_MS = 60_000
/** So long a reader waits for the next file before it goes. */
const SPARE_MS = 60_000

let spare: { worker: Worker; timer: NodeJS.Timeout } | null = null

/**
 * Reads a file in a thread of its own, whose memory is bounded, so that whatever a file holds keeps nobody waiting.
 * In: the file and what is asked about it; a signal that ends the reading wherever it is.
 * Throws an AppError that says what is wrong with the file, or that the signal ended it.
 */
export function readApart(asked: Asked, signal: AbortSignal): FileRead {
  const worker = takeWorker()
  let isIdle = false
  const close = () => {
    if (isIdle) keepWorker(worker)
    else void worker.terminate()
  }

  async function* parts(): AsyncGenerator<Part> {
    worker.postMessage(asked)
    for (;;) {
      const said = await nextWord(worker, signal)
      if ('done' in said || 'refused' in said) isIdle = true
      if ('refused' in said) throw notReadable(said.refused.rule, said.refused.detail)
      if ('failed' in said) throw new Error(said.failed)
      if ('done' in said) return
      yield said
      worker.postMessage('more')
    }
  }
  return { parts: parts(), close }
}

async function nextWord(worker: Worker, signal: AbortSignal): Promise<Said> {
  const silent = AbortSignal.timeout(SILENCE_MS)
  try {
    const [said] = (await once(worker, 'message', { signal: AbortSignal.any([signal, silent]) })) as [Said]
    return said
  } catch (error) {
    if (signal.aborted) throw readingGivenUp()
    if (silent.aborted)
      throw notReadable('takes-too-long', 'Reading the file takes too long. Send its table alone, as CSV.')
    if ((error as { code?: unknown }).code === 'ERR_WORKER_OUT_OF_MEMORY')
      throw notReadable('takes-too-much', 'Reading the file takes too much memory. Send it in parts, as CSV.')
    throw error
  }
}

function takeWorker(): Worker {
  if (spare) {
    const { worker, timer } = spare
    spare = null
    clearTimeout(timer)
    worker.ref()
    return worker
  }
  const worker = new Worker(new URL('./reader.mjs', import.meta.url), {
    execArgv: [],
    resourceLimits: { maxOldGenerationSizeMb: MOST_MEGABYTES },
  })
  worker.on('error', () => {}) // Whoever waits for its word hears of it.
  return worker
}

function keepWorker(worker: Worker): void {
  if (spare) return void worker.terminate()
  worker.unref()
  const timer = setTimeout(() => {
    spare = null
    void worker.terminate()
  }, SPARE_MS)
  timer.unref()
  spare = { worker, timer }
}
