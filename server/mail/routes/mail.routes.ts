import { z } from 'zod'
import { IdParams, PageQuery } from '../../contract/common.ts'
import * as endpoints from '../../contract/mail/endpoints.ts'
import { FailedMailPage, MailStatus } from '../../contract/mail/mail.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { dropMail, findFailedMails, getMailStatus, retryMail, sendTestMail } from '../services/keep-mail.ts'

const tags = ['mail']

/** The queue of mail, for administrators. */
export const mailRoutes: Routes = (app, context) => {
  route(app, endpoints.getMailStatus, {
    schema: {
      operationId: 'getMailStatus',
      summary: 'The state of mail: what waits, what failed, and why',
      tags,
      response: { 200: MailStatus, ...failures },
    },
    handler: (request) => getMailStatus(context, actorOf(request)),
  })

  route(app, endpoints.listFailedMails, {
    schema: {
      operationId: 'listFailedMails',
      summary: 'Undelivered mail, the latest first',
      tags,
      querystring: PageQuery,
      response: { 200: FailedMailPage, ...failures },
    },
    handler: (request) => findFailedMails(context, actorOf(request), request.query),
  })

  route(app, endpoints.retryMail, {
    schema: {
      operationId: 'retryMail',
      summary: 'Put a mail that was given up back into the queue',
      tags,
      params: IdParams,
      response: { 200: MailStatus, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => retryMail(context, actorOf(request), request.params.id),
  })

  route(app, endpoints.dropMail, {
    schema: {
      operationId: 'dropMail',
      summary: 'Take a mail that was given up off the list',
      tags,
      params: IdParams,
      response: { 204: z.null().describe('Dropped.'), ...failures, ...notFound },
    },
    handler: async (request, reply) => {
      await dropMail(context, actorOf(request), request.params.id)
      return reply.code(204).send(null)
    },
  })

  route(app, endpoints.sendTestMail, {
    config: { limits: 'strict' },
    schema: {
      operationId: 'sendTestMail',
      summary: 'Send a mail to one’s own address, to see whether mail goes out',
      tags,
      response: { 200: MailStatus, ...failures, ...conflict },
    },
    handler: (request) => sendTestMail(context, actorOf(request)),
  })
}
