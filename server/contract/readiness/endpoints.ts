import type { Created, IdParams } from '../common.ts'
import type { Endpoint } from '../endpoint.ts'
import type { LiftBody, ReviewBody, SuspensionBody } from '../soldiers/soldiers.ts'
import type { Readiness, RetestPage } from '../standards/certifications.ts'
import type {
  AwardDecisionBody,
  AwardDecisionsMade,
  CommandersWords,
  ExtensionBody,
  TakeBackBody,
  WaitingAwardPage,
  WaitingAwardQuery,
} from './commanders-words.ts'
import type { LapsePage, LapseQuery, ReadinessQuery, ReadinessTrend, TrendQuery } from './readiness.ts'
import type { RequirementQuery, Requirements } from './requirements.ts'
import type { Backlog, BacklogQuery, DueMoveBody, KeptGoPage, KeptGoQuery, RetestQuery } from './retests.ts'
import type { SuspensionPage, SuspensionQuery } from './suspensions.ts'
import type { UnitCountsPage, UnitCountsQuery } from './unit-counts.ts'

export const getReadiness = 'GET /api/readiness' as Endpoint<{ query: typeof ReadinessQuery; answer: typeof Readiness }>

export const listUnitCounts = 'GET /api/readiness/units' as Endpoint<{
  query: typeof UnitCountsQuery
  answer: typeof UnitCountsPage
}>

export const getReadinessTrend = 'GET /api/readiness/trend' as Endpoint<{
  query: typeof TrendQuery
  answer: typeof ReadinessTrend
}>

export const listLapses = 'GET /api/readiness/lapses' as Endpoint<{
  query: typeof LapseQuery
  answer: typeof LapsePage
}>

export const listRequirements = 'GET /api/requirements' as Endpoint<{
  query: typeof RequirementQuery
  answer: typeof Requirements
}>

export const listRetests = 'GET /api/retests' as Endpoint<{ query: typeof RetestQuery; answer: typeof RetestPage }>

export const getBacklog = 'GET /api/retests/backlog' as Endpoint<{ query: typeof BacklogQuery; answer: typeof Backlog }>

export const listKeptGos = 'GET /api/kept-gos' as Endpoint<{ query: typeof KeptGoQuery; answer: typeof KeptGoPage }>

export const moveDueDay = 'POST /api/soldiers/:id/due-days' as Endpoint<{
  params: typeof IdParams
  body: typeof DueMoveBody
  answer: typeof Created
}>

export const addReview = 'POST /api/soldiers/:id/reviews' as Endpoint<{
  params: typeof IdParams
  body: typeof ReviewBody
  answer: typeof Created
}>

export const listSuspensions = 'GET /api/suspensions' as Endpoint<{
  query: typeof SuspensionQuery
  answer: typeof SuspensionPage
}>

export const suspend = 'POST /api/suspensions' as Endpoint<{ body: typeof SuspensionBody; answer: typeof Created }>

export const liftSuspension = 'POST /api/suspensions/:id/lift' as Endpoint<{
  params: typeof IdParams
  body: typeof LiftBody
  answer: typeof Created
}>

export const listWaitingAwards = 'GET /api/approvals' as Endpoint<{
  query: typeof WaitingAwardQuery
  answer: typeof WaitingAwardPage
}>

export const decideAwards = 'POST /api/approvals' as Endpoint<{
  body: typeof AwardDecisionBody
  answer: typeof AwardDecisionsMade
}>

export const takeBackAwardDecision = 'POST /api/approvals/:id/take-back' as Endpoint<{
  params: typeof IdParams
  body: typeof TakeBackBody
  answer: typeof Created
}>

export const getCommandersWords = 'GET /api/soldiers/:id/commanders-words' as Endpoint<{
  params: typeof IdParams
  answer: typeof CommandersWords
}>

export const extendCertification = 'POST /api/extensions' as Endpoint<{
  body: typeof ExtensionBody
  answer: typeof Created
}>

export const takeBackExtension = 'POST /api/extensions/:id/take-back' as Endpoint<{
  params: typeof IdParams
  body: typeof TakeBackBody
  answer: typeof Created
}>
