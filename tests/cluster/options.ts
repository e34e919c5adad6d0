import { parseArgs } from 'node:util'

export interface Options {
  readonly help: boolean
  readonly rounds: number
  /** Of the order of the faults and of the moments at which they come. */
  readonly seed: number
  /** Whether logs and data stay where they are. */
  readonly keeps: boolean
}

const MOST_ROUNDS = 200

export const HELP = `npm run test:cluster -- [--rounds N] [--seed N] [--keep]

Three PostgreSQL with Patroni, etcd and HAProxy on loopback, and two server processes through which sheets stream. In each
round the primary is killed, frozen, or hands over. Before that servers are started behind PgBouncer, where there is one.
It needs packages of Debian, and says which are missing. Talks to this machine only and leaves nothing behind.

  --rounds N  how often the primary is lost; 20, unless told otherwise
  --seed N    another order, and other moments; 1, unless told otherwise
  --keep      leaves logs and data of the cluster where they are, and says where`

/** Reads the command line. Throws an Error that says what is wrong with it. */
export function readOptions(args: readonly string[]): Options {
  const { values } = parseArgs({
    args: [...args],
    options: {
      rounds: { type: 'string', default: '20' },
      seed: { type: 'string', default: '1' },
      keep: { type: 'boolean', default: false },
      help: { type: 'boolean', short: 'h', default: false },
    },
  })
  const rounds = Number(values.rounds)
  const seed = Number(values.seed)
  if (!Number.isInteger(rounds) || rounds < 1 || rounds > MOST_ROUNDS)
    throw new Error(`--rounds takes a whole number from 1 to ${MOST_ROUNDS}.`)
  if (!Number.isSafeInteger(seed)) throw new Error('--seed takes a whole number.')
  return { help: values.help, rounds, seed, keeps: values.keep }
}
