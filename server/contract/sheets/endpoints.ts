import type { Created, IdParams } from '../common.ts'
import type { Endpoint } from '../endpoint.ts'
import type { AmendmentDecisionBody, AmendmentProposalPage, AmendmentQuery, ProposedAmendment } from './amendments.ts'
import type { AppealBody, AppealDecisionBody, AppealPage, AppealQuery } from './appeals.ts'
import type { DuplicateQuery, PossibleDuplicatePage } from './duplicates.ts'
import type {
  ScoredSheet,
  SheetAmendment,
  SheetBody,
  SheetDecisionBody,
  SheetDetail,
  SheetPage,
  SheetQuery,
  StoredSheet,
} from './sheets.ts'

export const amendSheet = 'POST /api/sheets/:id/amendments' as Endpoint<{
  params: typeof IdParams
  body: typeof SheetAmendment
  answer: typeof StoredSheet | typeof ProposedAmendment
}>

export const listPossibleDuplicates = 'GET /api/duplicates' as Endpoint<{
  query: typeof DuplicateQuery
  answer: typeof PossibleDuplicatePage
}>

export const listAmendments = 'GET /api/amendments' as Endpoint<{
  query: typeof AmendmentQuery
  answer: typeof AmendmentProposalPage
}>

export const decideAmendment = 'POST /api/amendments/:id/decision' as Endpoint<{
  params: typeof IdParams
  body: typeof AmendmentDecisionBody
  answer: typeof StoredSheet
}>

export const appealSheet = 'POST /api/sheets/:id/appeals' as Endpoint<{
  params: typeof IdParams
  body: typeof AppealBody
  answer: typeof Created
}>

export const listAppeals = 'GET /api/appeals' as Endpoint<{ query: typeof AppealQuery; answer: typeof AppealPage }>

export const decideAppeal = 'POST /api/appeals/:id/decision' as Endpoint<{
  params: typeof IdParams
  body: typeof AppealDecisionBody
  answer: typeof Created
}>

export const listSheets = 'GET /api/sheets' as Endpoint<{ query: typeof SheetQuery; answer: typeof SheetPage }>

export const scoreSheet = 'POST /api/sheets/score' as Endpoint<{ body: typeof SheetBody; answer: typeof ScoredSheet }>

export const submitSheet = 'PUT /api/sheets/:id' as Endpoint<{
  params: typeof IdParams
  body: typeof SheetBody
  answer: typeof StoredSheet
}>

export const getSheet = 'GET /api/sheets/:id' as Endpoint<{ params: typeof IdParams; answer: typeof SheetDetail }>

export const decideSheet = 'POST /api/sheets/:id/decision' as Endpoint<{
  params: typeof IdParams
  body: typeof SheetDecisionBody
  answer: typeof StoredSheet
}>
