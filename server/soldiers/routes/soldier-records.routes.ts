import { z } from 'zod'
import { Created, Uuid } from '../../contract/common.ts'
import {
  AppointmentBody,
  AwardBody,
  SponsorshipBody,
  SponsorshipEndBody,
  WithdrawalBody,
} from '../../contract/soldiers/soldiers.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { addAppointment } from '../services/add-appointment.ts'
import { addAward } from '../services/add-award.ts'
import { addSponsorship } from '../services/add-sponsorship.ts'
import { addWithdrawal } from '../services/add-withdrawal.ts'
import { endSponsorship } from '../services/end-sponsorship.ts'

const Id = z.strictObject({ id: Uuid })
const response = { 201: Created, ...failures, ...notFound, ...conflict }

export const soldierRecordRoutes: Routes = (app, context) => {
  app.route({
    method: 'POST',
    url: '/api/soldiers/:id/sponsorships',
    schema: {
      operationId: 'addSponsorship',
      summary: 'A sponsor coaches this candidate for a time',
      tags: ['people'],
      params: Id,
      body: SponsorshipBody,
      response,
    },
    handler: async (request, reply) =>
      reply.code(201).send(await addSponsorship(context, actorOf(request), request.params.id, request.body)),
  })

  app.route({
    method: 'POST',
    url: '/api/soldiers/:id/sponsorships/:sponsorship/end',
    schema: {
      operationId: 'endSponsorship',
      summary: 'A sponsorship ends after a day',
      tags: ['people'],
      params: z.strictObject({ id: Uuid, sponsorship: Uuid }),
      body: SponsorshipEndBody,
      response: { 200: Created, ...failures, ...notFound, ...conflict },
    },
    handler: (request) =>
      endSponsorship(context, actorOf(request), request.params.id, request.params.sponsorship, request.body),
  })

  app.route({
    method: 'POST',
    url: '/api/soldiers/:id/appointments',
    schema: {
      operationId: 'addAppointment',
      summary: 'Appoint this soldier to grade a standard for a time',
      tags: ['people'],
      params: Id,
      body: AppointmentBody,
      response,
    },
    handler: async (request, reply) =>
      reply.code(201).send(await addAppointment(context, actorOf(request), request.params.id, request.body)),
  })

  app.route({
    method: 'POST',
    url: '/api/soldiers/:id/withdrawals',
    schema: {
      operationId: 'addWithdrawal',
      summary: 'Withdraw this soldier from training for a certification',
      tags: ['certifications'],
      params: Id,
      body: WithdrawalBody,
      response,
    },
    handler: async (request, reply) =>
      reply.code(201).send(await addWithdrawal(context, actorOf(request), request.params.id, request.body)),
  })

  app.route({
    method: 'POST',
    url: '/api/soldiers/:id/awards',
    schema: {
      operationId: 'addAward',
      summary: 'Carry over an award from before the unit joined',
      tags: ['certifications'],
      params: Id,
      body: AwardBody,
      response,
    },
    handler: async (request, reply) =>
      reply.code(201).send(await addAward(context, actorOf(request), request.params.id, request.body)),
  })
}
