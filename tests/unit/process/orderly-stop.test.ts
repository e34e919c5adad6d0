import { setTimeout } from 'node:timers/promises'
import { afterEach, describe, expect, it, vi } from 'vitest'
import { endsWithin, orderlyStop } from '../../../server/process/start/orderly-stop.ts'

const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const

describe('orderlyStop', () => {
  const before = signals.map((signal) => process.listeners(signal))
  afterEach(() => {
    vi.restoreAllMocks()
    for (const [index, signal] of signals.entries()) {
      for (const listener of process.listeners(signal)) {
        if (!before[index]!.includes(listener)) process.off(signal, listener)
      }
    }
  })

  function observed() {
    const events: string[] = []
    const ending = orderlyStop({
      say: (line) => events.push(line),
      onError: (error) => events.push(`error ${(error as Error).message}`),
      exit: (code) => events.push(`exit ${code}`),
    })
    return { events, ending }
  }

  it('undoes last what was begun first, one after the other, then ends', async () => {
    const { events, ending } = observed()
    ending.add(async () => {
      events.push('postgres')
    })
    ending.add(async () => {
      await setTimeout(5)
      events.push('requests')
    })
    await ending.stop(0)
    expect(events).toEqual(['requests', 'postgres', 'exit 0'])
  })

  it('goes on after a step that fails, and ends with 1', async () => {
    const { events, ending } = observed()
    ending.add(async () => {
      events.push('postgres')
    })
    ending.add(() => Promise.reject(new Error('broken')))
    await ending.stop(0)
    expect(events).toEqual(['error broken', 'postgres', 'exit 1'])
  })

  it('takes the echo of a signal for the same one, and a later one as force', async () => {
    const { events, ending } = observed()
    let finish = () => {}
    ending.add(
      () =>
        new Promise((resolve) => {
          finish = resolve
        }),
    )
    process.emit('SIGINT')
    process.emit('SIGINT')
    expect(ending.isStopping()).toBe(true)
    expect(events).toEqual(['Stopping … (once more to force it)'])
    vi.spyOn(Date, 'now').mockReturnValue(Date.now() + 600)
    process.emit('SIGINT')
    expect(events.at(-1)).toBe('exit 130')
    finish()
    await ending.stop(0)
  })
})

describe('endsWithin', () => {
  it('tells whether work ended in time', async () => {
    expect(await endsWithin(1_000, Promise.resolve())).toBe(true)
    expect(await endsWithin(5, new Promise(() => {}))).toBe(false)
  })
})
