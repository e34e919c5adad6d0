import { BackupPage, BackupParams, BackupStatus } from '../../contract/backups/backups.ts'
import * as endpoints from '../../contract/backups/endpoints.ts'
import { FileAnswer, PageQuery } from '../../contract/common.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { beginBackup, downloadBackup, findBackups, getBackupStatus } from '../services/keep-backups.ts'

const tags = ['backups']

/** A large one takes long to send. */
const DOWNLOAD_MS = 3_600_000

export const backupRoutes: Routes = (app, context) => {
  route(app, endpoints.listBackups, {
    schema: {
      operationId: 'listBackups',
      summary: 'Complete backups, the latest first',
      tags,
      querystring: PageQuery,
      response: { 200: BackupPage, ...failures },
    },
    handler: (request) => findBackups(context, actorOf(request), request.query),
  })

  route(app, endpoints.beginBackup, {
    schema: {
      operationId: 'beginBackup',
      summary: 'Begin a backup; GET /api/backups/status tells how far it is',
      tags,
      response: { 202: BackupStatus, ...failures, ...conflict },
    },
    handler: async (request, reply) => reply.code(202).send(await beginBackup(context, actorOf(request))),
  })

  route(app, endpoints.getBackupStatus, {
    schema: {
      operationId: 'getBackupStatus',
      summary: 'When the last good backup was, what went wrong, and when the next is due',
      tags,
      response: { 200: BackupStatus, ...failures },
    },
    handler: (request) => getBackupStatus(context, actorOf(request)),
  })

  route(app, endpoints.downloadBackup, {
    config: { confirmed: true },
    handlerTimeout: DOWNLOAD_MS,
    schema: {
      operationId: 'downloadBackup',
      summary: 'A backup as a file; it holds names and password hashes, and the download is on record',
      tags,
      params: BackupParams,
      response: { 200: FileAnswer, ...failures, ...notFound },
    },
    handler: async (request, reply) => {
      const { name } = request.params
      const { bytes, content } = await downloadBackup(context, actorOf(request), name)
      return reply
        .header('content-disposition', `attachment; filename="${name}"`)
        .header('content-length', bytes)
        .type('application/gzip')
        .send(content as never)
    },
  })
}
