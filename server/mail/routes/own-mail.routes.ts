import { z } from 'zod'
import * as endpoints from '../../contract/mail/endpoints.ts'
import { MailAddressBody, MailChoicesBody, MailCodeBody, OwnMail } from '../../contract/mail/mail.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf, visitorOf } from '../../plugins/session.ts'
import {
  changeAddress,
  chooseMail,
  confirmOwnAddress,
  getOwnMail,
  removeAddress,
  sendCodeAnew,
} from '../services/own-mail.ts'

const tags = ['account']

/** One's own mail. No token answers here: it takes a session. */
export const ownMailRoutes: Routes = (app, context) => {
  route(app, endpoints.getOwnMail, {
    schema: {
      operationId: 'getOwnMail',
      summary: 'One’s own mail address, and what comes there when',
      tags,
      response: { 200: OwnMail, ...failures },
    },
    handler: (request) => getOwnMail(context, actorOf(request)),
  })

  route(app, endpoints.changeMailAddress, {
    config: { limits: 'strict', confirmed: 'where a factor is' },
    schema: {
      operationId: 'changeMailAddress',
      summary: 'Give an address for one’s mail; a code is sent to it, and nothing else until that is typed',
      tags,
      body: MailAddressBody,
      response: { 200: OwnMail, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => changeAddress(context, actorOf(request), request.body, visitorOf(request)),
  })

  route(app, endpoints.removeMailAddress, {
    schema: {
      operationId: 'removeMailAddress',
      summary: 'Stop all mail; the address is forgotten',
      tags,
      response: { 204: z.null().describe('Forgotten.'), ...failures },
    },
    handler: async (request, reply) => {
      await removeAddress(context, actorOf(request))
      return reply.code(204).send(null)
    },
  })

  route(app, endpoints.sendMailCode, {
    config: { limits: 'strict' },
    schema: {
      operationId: 'sendMailCode',
      summary: 'Send a new code to the address that waits to be confirmed',
      tags,
      response: { 200: OwnMail, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => sendCodeAnew(context, actorOf(request)),
  })

  route(app, endpoints.confirmMailAddress, {
    config: { limits: 'strict' },
    schema: {
      operationId: 'confirmMailAddress',
      summary: 'Confirm the address by the code that was sent to it',
      tags,
      body: MailCodeBody,
      response: { 200: OwnMail, ...failures, ...notFound },
    },
    handler: (request) => confirmOwnAddress(context, actorOf(request), request.body.code),
  })

  route(app, endpoints.chooseMail, {
    schema: {
      operationId: 'chooseMail',
      summary: 'Choose what comes by mail, and when',
      tags,
      body: MailChoicesBody,
      response: { 200: OwnMail, ...failures },
    },
    handler: (request) => chooseMail(context, actorOf(request), request.body),
  })
}
