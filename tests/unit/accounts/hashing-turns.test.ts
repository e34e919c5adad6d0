import { expect, it } from 'vitest'
import { inTurn } from '../../../server/accounts/services/hashing-turns.ts'

it('runs two at once, the others as turns come, and sends away who would wait too long', async () => {
  let running = 0
  let most = 0
  const release: (() => void)[] = []
  const work = () => {
    running += 1
    most = Math.max(most, running)
    return new Promise<void>((resolve) => release.push(resolve)).then(() => {
      running -= 1
    })
  }
  const accepted = Array.from({ length: 202 }, () => inTurn(work))
  await expect(inTurn(work)).rejects.toMatchObject({ kind: 'unavailable', rule: 'busy' })
  for (let ended = 0; ended < 202; ended += 1) {
    expect(running).toBe(Math.min(2, 202 - ended))
    release.shift()!()
    await new Promise((resolve) => setImmediate(resolve))
  }
  await Promise.all(accepted)
  expect(most).toBe(2)
})

it('passes a turn on when the work failed', async () => {
  await expect(inTurn(() => Promise.reject(new Error('no memory')))).rejects.toThrow('no memory')
  expect(await inTurn(async () => 'done')).toBe('done')
})
