import { Created, IdParams } from '../../contract/common.ts'
import * as endpoints from '../../contract/soldiers/endpoints.ts'
import {
  AppointmentBody,
  AwardBody,
  SponsorshipBody,
  SponsorshipEndBody,
  SponsorshipParams,
  WithdrawalBody,
} from '../../contract/soldiers/soldiers.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { addAppointment } from '../services/add-appointment.ts'
import { addAward } from '../services/add-award.ts'
import { addSponsorship } from '../services/add-sponsorship.ts'
import { addWithdrawal } from '../services/add-withdrawal.ts'
import { endSponsorship } from '../services/end-sponsorship.ts'

const response = { 201: Created, ...failures, ...notFound, ...conflict }

export const soldierRecordRoutes: Routes = (app, context) => {
  route(app, endpoints.addSponsorship, {
    schema: {
      operationId: 'addSponsorship',
      summary: 'A sponsor coaches this candidate for a time',
      tags: ['people'],
      params: IdParams,
      body: SponsorshipBody,
      response,
    },
    handler: async (request, reply) =>
      reply.code(201).send(await addSponsorship(context, actorOf(request), request.params.id, request.body)),
  })

  route(app, endpoints.endSponsorship, {
    schema: {
      operationId: 'endSponsorship',
      summary: 'A sponsorship ends after a day',
      tags: ['people'],
      params: SponsorshipParams,
      body: SponsorshipEndBody,
      response: { 200: Created, ...failures, ...notFound, ...conflict },
    },
    handler: (request) =>
      endSponsorship(context, actorOf(request), request.params.id, request.params.sponsorship, request.body),
  })

  route(app, endpoints.addAppointment, {
    schema: {
      operationId: 'addAppointment',
      summary: 'Appoint this soldier to grade a standard for a time',
      tags: ['people'],
      params: IdParams,
      body: AppointmentBody,
      response,
    },
    handler: async (request, reply) =>
      reply.code(201).send(await addAppointment(context, actorOf(request), request.params.id, request.body)),
  })

  route(app, endpoints.addWithdrawal, {
    schema: {
      operationId: 'addWithdrawal',
      summary: 'Withdraw this soldier from training for a certification',
      tags: ['certifications'],
      params: IdParams,
      body: WithdrawalBody,
      response,
    },
    handler: async (request, reply) =>
      reply.code(201).send(await addWithdrawal(context, actorOf(request), request.params.id, request.body)),
  })

  route(app, endpoints.addAward, {
    schema: {
      operationId: 'addAward',
      summary: 'Carry over an award from before the unit joined',
      tags: ['certifications'],
      params: IdParams,
      body: AwardBody,
      response,
    },
    handler: async (request, reply) =>
      reply.code(201).send(await addAward(context, actorOf(request), request.params.id, request.body)),
  })
}
