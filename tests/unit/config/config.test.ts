import { describe, expect, it } from 'vitest'
import { readConfig } from '../../../server/config/config.ts'

function mistakes(environment: Record<string, string>): string[] {
  try {
    readConfig(environment)
  } catch (error) {
    return (error as Error).message.split('\n')
  }
  return []
}

describe('readConfig', () => {
  it('serves the demo on loopback with a data folder in the project when nothing is set', () => {
    const config = readConfig({})
    expect(config).toMatchObject({ host: '127.0.0.1', port: 4180, databaseUrl: null, demo: true, logLevel: 'warn' })
    expect(config.dataFolder).toBe(new URL('../../../data', import.meta.url).pathname)
    expect(config.timeZone).toBe(Intl.DateTimeFormat().resolvedOptions().timeZone)
  })

  it('takes what is set', () => {
    expect(
      readConfig({
        PORT: '0',
        HOST: '::',
        DATABASE_URL: 'postgres://u:p@db.example:5433/guard',
        REVIEWSTAND_DATA: '/srv/reviewstand',
        REVIEWSTAND_DEMO: 'off',
        REVIEWSTAND_TIME_ZONE: 'Asia/Kolkata',
        LOG_LEVEL: 'debug',
        TRUST_PROXY: '192.0.2.10, 2001:db8::/32',
        REVIEWSTAND_REQUESTS_PER_MINUTE: '500',
        REVIEWSTAND_BACKUP_AT: '30 2 * * *',
        REVIEWSTAND_BACKUP_KEEP: '3',
        REVIEWSTAND_METRICS_TOKEN: 'twenty-letters-at-the-least',
        REVIEWSTAND_NEW_LINK: 'admin',
        REVIEWSTAND_ADDRESS: 'https://review.example.org/',
        REVIEWSTAND_KEY_FILE: '/srv/reviewstand/keys/factor',
        PATH: '/bin',
      }),
    ).toEqual({
      host: '::',
      port: 0,
      databaseUrl: 'postgres://u:p@db.example:5433/guard',
      databaseReadUrl: null,
      dataFolder: '/srv/reviewstand',
      demo: false,
      timeZone: 'Asia/Kolkata',
      logLevel: 'debug',
      tls: null,
      trustProxy: ['192.0.2.10', '2001:db8::/32'],
      hosts: null,
      address: 'https://review.example.org',
      keyFile: '/srv/reviewstand/keys/factor',
      requestsPerMinute: 500,
      appealDays: 14,
      mostCandidates: 3,
      importMegabytes: 50,
      backupAt: '30 2 * * *',
      backupFolder: '/srv/reviewstand/backups',
      backupsKept: 3,
      metricsToken: 'twenty-letters-at-the-least',
      mail: null,
      loopbackProviders: false,
      newLinkFor: 'admin',
    })
  })

  it.each([
    'review.example.org',
    'https://a.example/path',
    'https://a.example/?x',
    'ftp://a.example',
    'https://u:p@a.example',
  ])('takes no %s for the address people open it by', (address) => {
    expect(mistakes({ REVIEWSTAND_ADDRESS: address })).toEqual([
      expect.stringMatching(/^REVIEWSTAND_ADDRESS is ".*"; expected the address people open it by, without a path/),
    ])
  })

  it('takes an empty value as not set', () => {
    const names = ['PORT', 'HOST', 'DATABASE_URL', 'REVIEWSTAND_DATA', 'REVIEWSTAND_DEMO', 'LOG_LEVEL', 'REVIEWSTAND_X']
    expect(readConfig(Object.fromEntries(names.map((name) => [name, ''])))).toEqual(readConfig({}))
  })

  it('reports every mistake at once: the name, what was given, what is expected', () => {
    const lines = mistakes({
      PORT: '70000',
      HOST: 'a b',
      REVIEWSTAND_DEMO: 'no',
      REVIEWSTAND_TIME_ZONE: 'Mars/Olympus',
      LOG_LEVEL: 'loud',
      REVIEWSTAND_TIMEZONE: 'UTC',
    })
    expect(lines).toHaveLength(6)
    expect(lines[0]).toBe('PORT is "70000"; expected a whole number from 0 to 65535 (0: any free port).')
    expect(lines[4]).toMatch(/^LOG_LEVEL is "loud"; expected one of fatal, .*trace/)
    expect(lines[5]).toBe('REVIEWSTAND_TIMEZONE is not a setting; did you mean REVIEWSTAND_TIME_ZONE?')
  })

  it.each(['4180x', '-1', '1e3', ' 80', '65536'])('refuses %j as a port', (PORT) => {
    expect(mistakes({ PORT })).toHaveLength(1)
  })

  it.each(['every night', '61 2 * * *', '0 30 2 * * *', '0 0 31 2 *', '* * *'])(
    'refuses %j as the time of backups',
    (REVIEWSTAND_BACKUP_AT) => {
      expect(mistakes({ REVIEWSTAND_BACKUP_AT })).toEqual([
        `REVIEWSTAND_BACKUP_AT is ${JSON.stringify(REVIEWSTAND_BACKUP_AT)}; expected a cron expression of five parts ` +
          '(minute, hour, day, month, day of the week), like "30 2 * * *".',
      ])
    },
  )

  it('refuses a short token for the figures, and does not repeat it', () => {
    const [mistake, ...others] = mistakes({ REVIEWSTAND_METRICS_TOKEN: 'short secret' })
    expect(mistake).toMatch(/^REVIEWSTAND_METRICS_TOKEN .*20 to 200/)
    expect(mistake).not.toContain('short secret')
    expect(others).toEqual([])
  })

  it.each(['0', '-1', '1.5', '10000', 'all'])('refuses %j as the number of backups kept', (REVIEWSTAND_BACKUP_KEEP) => {
    expect(mistakes({ REVIEWSTAND_BACKUP_KEEP })).toHaveLength(1)
  })

  it.each(['+02:00', 'Europe', 'x'])('refuses %j as a time zone', (REVIEWSTAND_TIME_ZONE) => {
    expect(mistakes({ REVIEWSTAND_TIME_ZONE })).toHaveLength(1)
  })

  it('never shows the password of a wrong DATABASE_URL', () => {
    const lines = mistakes({ DATABASE_URL: 'mysql://root:secret@db/guard' })
    expect(lines).toHaveLength(1)
    expect(lines[0]).toMatch(/^DATABASE_URL .*postgresql:/)
    expect(lines[0]).not.toContain('secret')
  })

  it('keeps demo mode on this machine, and says what to do, beside other mistakes too', () => {
    const lines = mistakes({ HOST: '0.0.0.0', PORT: 'x' })
    expect(lines).toHaveLength(2)
    expect(lines[1]).toContain('REVIEWSTAND_DEMO=off')
    expect(mistakes({ HOST: '0.0.0.0', REVIEWSTAND_DEMO: 'off' })).toEqual([])
    for (const HOST of ['localhost', '127.0.0.2', '::1']) expect(mistakes({ HOST })).toEqual([])
  })

  it('points a misspelt name in whatever case to the nearest setting', () => {
    expect(mistakes({ reviewstand_dat: 'x' })).toEqual([
      'reviewstand_dat is not a setting; did you mean REVIEWSTAND_DATA?',
    ])
  })
})
