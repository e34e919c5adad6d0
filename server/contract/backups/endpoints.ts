import type { FileAnswer, PageQuery } from '../common.ts'
import type { Endpoint } from '../endpoint.ts'
import type { BackupPage, BackupParams, BackupStatus } from './backups.ts'

export const listBackups = 'GET /api/backups' as Endpoint<{ query: typeof PageQuery; answer: typeof BackupPage }>

export const beginBackup = 'POST /api/backups' as Endpoint<{ answer: typeof BackupStatus }>

export const getBackupStatus = 'GET /api/backups/status' as Endpoint<{ answer: typeof BackupStatus }>

export const downloadBackup = 'GET /api/backups/:name/file' as Endpoint<{
  params: typeof BackupParams
  answer: typeof FileAnswer
}>
