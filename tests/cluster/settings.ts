import type { Node } from './run-cluster.ts'

interface Around {
  readonly etcdPort: number
  readonly bin: string
  readonly password: string
}

export const SCOPE = 'guard'

/** Settings of a Patroni: both standbys synchronous, and at once another primary where one dies. YAML takes JSON as it is. */
export function patroniSettings({ name, port, restPort, folder }: Node, { etcdPort, bin, password }: Around): string {
  const rest = `127.0.0.1:${restPort}`
  const address = `127.0.0.1:${port}`
  return JSON.stringify({
    scope: SCOPE,
    name,
    restapi: { listen: rest, connect_address: rest },
    // Not etcd3: with it Patroni 3.0 writes over the lock of whoever was promoted meanwhile, when a primary wakes up.
    etcd: { hosts: [`127.0.0.1:${etcdPort}`] },
    bootstrap: {
      dcs: {
        ttl: 20,
        loop_wait: 3,
        retry_timeout: 8,
        maximum_lag_on_failover: 1_048_576,
        master_start_timeout: 0,
        synchronous_mode: true,
        synchronous_mode_strict: true,
        synchronous_node_count: 2,
        postgresql: {
          use_pg_rewind: true,
          parameters: { max_connections: 80, shared_buffers: '32MB', wal_log_hints: 'on', hot_standby_feedback: 'on' },
        },
      },
      initdb: [{ encoding: 'UTF8' }, { locale: 'C.UTF-8' }, 'data-checksums'],
    },
    postgresql: {
      listen: address,
      connect_address: address,
      data_dir: folder,
      bin_dir: bin,
      pgpass: `${folder}.pgpass`,
      remove_data_directory_on_diverged_timelines: true,
      remove_data_directory_on_rewind_failure: true,
      parameters: { unix_socket_directories: '' },
      pg_hba: ['host all all 127.0.0.1/32 scram-sha-256', 'host replication all 127.0.0.1/32 scram-sha-256'],
      authentication: {
        superuser: { username: 'postgres', password },
        replication: { username: 'replicator', password },
        rewind: { username: 'postgres', password },
      },
    },
  })
}

/** Settings of a HAProxy that leads to whoever says of itself that it is the primary, and to nobody else. */
export const haproxySettings = (port: number, nodes: readonly Node[]): string => `global
  maxconn 200
defaults
  mode tcp
  timeout connect 3s
  timeout client 1h
  timeout server 1h
  timeout check 2s
listen primary
  bind 127.0.0.1:${port}
  option httpchk GET /primary
  http-check expect status 200
  default-server inter 1s fall 2 rise 1 on-marked-down shutdown-sessions
${nodes.map((node) => `  server ${node.name} 127.0.0.1:${node.port} check port ${node.restPort}`).join('\n')}
`

/** Settings of a PgBouncer in front of one database, which it enters as that address says. */
export function pgbouncerSettings(url: string, { port, mode }: { port: number; mode: string }): string {
  const { hostname, port: behind, username, password, pathname } = new URL(url)
  return `[databases]
${pathname.slice(1)} = host=${hostname} port=${behind} user=${username} password=${password}
[pgbouncer]
listen_addr = 127.0.0.1
listen_port = ${port}
unix_socket_dir =
auth_type = any
pool_mode = ${mode}
ignore_startup_parameters = statement_timeout, idle_in_transaction_session_timeout
`
}
