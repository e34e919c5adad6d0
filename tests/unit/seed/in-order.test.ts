import { expect, test } from 'vitest'
import { type Footprint, inOrder } from '../../../seed/load/in-order.ts'

interface Task extends Footprint {
  readonly name: string
}

const task = (name: string, changes: string[], reads: string[] = [], alone = false): Task => ({
  name,
  changes,
  reads,
  alone,
})

/** Runs tasks, each over a few turns of the event loop, and logs when each begins and ends. */
async function run(tasks: readonly Task[], atOnce: number, turns = 3): Promise<string[]> {
  const log: string[] = []
  await inOrder(
    tasks,
    atOnce,
    (one) => one,
    async ({ name }) => {
      log.push(`${name} begins`)
      for (let turn = 0; turn < turns; turn++) await new Promise((resolve) => setImmediate(resolve))
      log.push(`${name} ends`)
    },
  )
  return log
}

test('what does not touch the same runs side by side, no more than allowed at once', async () => {
  const tasks = ['a', 'b', 'c', 'd', 'e'].map((name) => task(name, [name], ['all of them read this']))
  const log = await run(tasks, 3)
  const running = log.map((_, index) =>
    log.slice(0, index + 1).reduce((count, line) => count + (line.endsWith('begins') ? 1 : -1), 0),
  )
  expect(Math.max(...running)).toBe(3)
  expect(log.filter((line) => line.endsWith('begins'))).toEqual(tasks.map(({ name }) => `${name} begins`))
})

test.each([
  ['both change it', task('a', ['x']), task('b', ['x'])],
  ['the first changes what the second reads', task('a', ['x']), task('b', ['y'], ['x'])],
  ['the first reads what the second changes', task('a', ['y'], ['x']), task('b', ['x'])],
  ['the second wants to be alone', task('a', ['x']), task('b', [], [], true)],
  ['the first is alone', task('a', [], [], true), task('b', ['x'])],
])('one after the other where %s', async (_, first, second) => {
  expect(await run([first, second], 4)).toEqual(['a begins', 'a ends', 'b begins', 'b ends'])
})

test('fails with the first failure, after what runs has ended, and begins nothing more', async () => {
  const begun: string[] = []
  let ended = false
  const work = async ({ name }: Task) => {
    begun.push(name)
    if (name === 'bad') throw new Error('broken')
    await new Promise((resolve) => setTimeout(resolve, 5))
    ended = true
  }
  const tasks = [task('slow', ['s']), task('bad', ['b']), task('next', ['b'])]
  await expect(inOrder(tasks, 4, (one) => one, work)).rejects.toThrow('broken')
  expect(begun).toEqual(['slow', 'bad'])
  expect(ended).toBe(true)
})
