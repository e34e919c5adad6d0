import { execFileSync } from 'node:child_process'
import fs from 'node:fs'
import path from 'node:path'

/** Where the programs of the cluster are. */
export interface Programs {
  readonly etcd: string
  readonly patroni: string
  readonly patronictl: string
  readonly haproxy: string
  /** The folder of PostgreSQL's own. */
  readonly postgres: string
  /** Null: it is not there, and what it is for is left out. */
  readonly pgbouncer: string | null
}

const FOLDERS = ['/usr/bin', '/usr/sbin', '/usr/local/bin', '/usr/local/sbin']
const DEBIAN_POSTGRES = '/usr/lib/postgresql'
/** What Patroni speaks to etcd by; Debian's package only recommends it. */
const ETCD_FOR_PYTHON = '/usr/lib/python3/dist-packages/etcd'
const OLDEST_POSTGRES = 15

/** @throws Error that says what is missing and how it is installed on Debian */
export function findPrograms(): Programs {
  const needed = {
    etcd: find('etcd'),
    patroni: find('patroni'),
    patronictl: find('patronictl'),
    haproxy: find('haproxy'),
    postgres: newestPostgres(),
  }
  const packages = new Map([
    ['etcd-server', needed.etcd],
    ['patroni', needed.patroni && needed.patronictl],
    ['python3-etcd', fs.existsSync(ETCD_FOR_PYTHON) ? ETCD_FOR_PYTHON : null],
    ['haproxy', needed.haproxy],
    ['postgresql', needed.postgres],
  ])
  const missing = [...packages].filter(([, where]) => where === null).map(([name]) => name)
  if (missing.length > 0) {
    throw new Error(
      `The cluster test needs programs that are not here. On Debian, as root: apt-get install --no-install-recommends ${missing.join(' ')}`,
    )
  }
  return { ...(needed as Omit<Programs, 'pgbouncer'>), pgbouncer: find('pgbouncer') }
}

/** Each program with its version, for the report. */
export function versionsOf({ postgres, patroni, etcd, haproxy, pgbouncer }: Programs): string {
  const first = (program: string, flag: string) =>
    execFileSync(program, [flag], { encoding: 'utf8' }).split('\n', 1)[0]!.trim()
  const lines = [
    first(path.join(postgres, 'postgres'), '--version'),
    first(patroni, '--version'),
    first(etcd, '--version'),
    first(haproxy, '-v').replace(/ - .*/, ''),
    ...(pgbouncer ? [first(pgbouncer, '--version')] : []),
  ]
  return lines.join('; ')
}

function find(name: string): string | null {
  return FOLDERS.map((folder) => path.join(folder, name)).find((file) => fs.existsSync(file)) ?? null
}

function newestPostgres(): string | null {
  if (!fs.existsSync(DEBIAN_POSTGRES)) return null
  const folders = fs
    .readdirSync(DEBIAN_POSTGRES)
    .map(Number)
    .filter((version) => version >= OLDEST_POSTGRES)
    .sort((a, b) => b - a)
    .map((version) => path.join(DEBIAN_POSTGRES, String(version), 'bin'))
  return folders.find((folder) => fs.existsSync(path.join(folder, 'pg_basebackup'))) ?? null
}
