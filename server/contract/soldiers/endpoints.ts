import type { Created, FileAnswer, IdParams, PageQuery } from '../common.ts'
import type { Endpoint } from '../endpoint.ts'
import type { CertificationStatusPage } from '../standards/certifications.ts'
import type { AbsenceBody, AbsencePage, AbsentQuery, AbsentSoldierPage } from './absences.ts'
import type { AsKnown, AsKnownQuery } from './as-known.ts'
import type {
  Certificate,
  CertificateParams,
  CertificateQuery,
  CertificateRecordPage,
  SoldierExtract,
} from './extracts.ts'
import type { UnitLevels, UnitLevelsBody } from './levels.ts'
import type { MergeBody, MergePage, MergePreview, MergePreviewBody, MergeQuery } from './merges.ts'
import type { RemovalBody, RemovalPreview, Removed } from './removals.ts'
import type { CertificateCheckBody, CheckedCertificate } from './signed-certificates.ts'
import type {
  AppointmentBody,
  AsOfQuery,
  AwardBody,
  ChangeCorrectionBody,
  ChangeParams,
  NamesBody,
  ReasonBody,
  RosterFileQuery,
  Soldier,
  SoldierBody,
  SoldierChangeBody,
  SoldierChangePage,
  SoldierCount,
  SoldierCountQuery,
  SoldierDetail,
  SoldierPage,
  SoldierQuery,
  SponsorshipBody,
  SponsorshipEndBody,
  SponsorshipParams,
  StatusQuery,
  UnitBody,
  UnitChangeBody,
  UnitPage,
  WithdrawalBody,
} from './soldiers.ts'
import type { UnitMoveBody, UnitMoved, UnitMovePreview, UnitMoveQuery, UnitOrderBody } from './unit-moves.ts'

export const listAbsent = 'GET /api/absences' as Endpoint<{
  query: typeof AbsentQuery
  answer: typeof AbsentSoldierPage
}>

export const listAbsences = 'GET /api/soldiers/:id/absences' as Endpoint<{
  params: typeof IdParams
  query: typeof PageQuery
  answer: typeof AbsencePage
}>

export const addAbsence = 'POST /api/soldiers/:id/absences' as Endpoint<{
  params: typeof IdParams
  body: typeof AbsenceBody
  answer: typeof Created
}>

export const changeAbsence = 'PUT /api/absences/:id' as Endpoint<{
  params: typeof IdParams
  body: typeof AbsenceBody
  answer: typeof Created
}>

export const removeAbsence = 'DELETE /api/absences/:id' as Endpoint<{ params: typeof IdParams }>

export const extractSoldier = 'GET /api/soldiers/:id/extract' as Endpoint<{
  params: typeof IdParams
  answer: typeof SoldierExtract
}>

export const makeCertificate = 'GET /api/soldiers/:id/certificate' as Endpoint<{
  params: typeof IdParams
  query: typeof CertificateQuery
  answer: typeof Certificate
}>

export const lookUpCertificate = 'GET /api/certificates/:number' as Endpoint<{
  params: typeof CertificateParams
  answer: typeof CertificateRecordPage
}>

export const verifyCertificate = 'POST /api/certificates/verify' as Endpoint<{
  body: typeof CertificateCheckBody
  answer: typeof CheckedCertificate
}>

export const listMerges = 'GET /api/merges' as Endpoint<{ query: typeof MergeQuery; answer: typeof MergePage }>

export const previewMerge = 'POST /api/soldiers/:id/merges/preview' as Endpoint<{
  params: typeof IdParams
  body: typeof MergePreviewBody
  answer: typeof MergePreview
}>

export const mergeSoldiers = 'POST /api/soldiers/:id/merges' as Endpoint<{
  params: typeof IdParams
  body: typeof MergeBody
  answer: typeof Created
}>

export const undoMerge = 'POST /api/merges/:id/undo' as Endpoint<{
  params: typeof IdParams
  body: typeof ReasonBody
  answer: typeof Created
}>

export const previewRemoval = 'GET /api/soldiers/:id/removal' as Endpoint<{
  params: typeof IdParams
  answer: typeof RemovalPreview
}>

export const removeSoldier = 'POST /api/soldiers/:id/removal' as Endpoint<{
  params: typeof IdParams
  body: typeof RemovalBody
  answer: typeof Removed
}>

export const listChanges = 'GET /api/soldiers/:id/changes' as Endpoint<{
  params: typeof IdParams
  query: typeof PageQuery
  answer: typeof SoldierChangePage
}>

export const changeSoldier = 'POST /api/soldiers/:id/changes' as Endpoint<{
  params: typeof IdParams
  body: typeof SoldierChangeBody
  answer: typeof Soldier
}>

export const correctChange = 'PUT /api/soldiers/:id/changes/:change' as Endpoint<{
  params: typeof ChangeParams
  body: typeof ChangeCorrectionBody
  answer: typeof Soldier
}>

export const removeChange = 'POST /api/soldiers/:id/changes/:change/remove' as Endpoint<{
  params: typeof ChangeParams
  body: typeof ReasonBody
  answer: typeof Soldier
}>

export const addSponsorship = 'POST /api/soldiers/:id/sponsorships' as Endpoint<{
  params: typeof IdParams
  body: typeof SponsorshipBody
  answer: typeof Created
}>

export const endSponsorship = 'POST /api/soldiers/:id/sponsorships/:sponsorship/end' as Endpoint<{
  params: typeof SponsorshipParams
  body: typeof SponsorshipEndBody
  answer: typeof Created
}>

export const addAppointment = 'POST /api/soldiers/:id/appointments' as Endpoint<{
  params: typeof IdParams
  body: typeof AppointmentBody
  answer: typeof Created
}>

export const addWithdrawal = 'POST /api/soldiers/:id/withdrawals' as Endpoint<{
  params: typeof IdParams
  body: typeof WithdrawalBody
  answer: typeof Created
}>

export const addAward = 'POST /api/soldiers/:id/awards' as Endpoint<{
  params: typeof IdParams
  body: typeof AwardBody
  answer: typeof Created
}>

export const listSoldiers = 'GET /api/soldiers' as Endpoint<{ query: typeof SoldierQuery; answer: typeof SoldierPage }>

export const countSoldiers = 'GET /api/soldiers/count' as Endpoint<{
  query: typeof SoldierCountQuery
  answer: typeof SoldierCount
}>

export const getRosterFile = 'GET /api/roster.csv' as Endpoint<{
  query: typeof RosterFileQuery
  answer: typeof FileAnswer
}>

export const createSoldier = 'POST /api/soldiers' as Endpoint<{ body: typeof SoldierBody; answer: typeof Created }>

export const getSoldier = 'GET /api/soldiers/:id' as Endpoint<{
  params: typeof IdParams
  query: typeof AsOfQuery
  answer: typeof SoldierDetail
}>

export const correctNames = 'PUT /api/soldiers/:id' as Endpoint<{
  params: typeof IdParams
  body: typeof NamesBody
  answer: typeof Soldier
}>

export const getStatus = 'GET /api/soldiers/:id/status' as Endpoint<{
  params: typeof IdParams
  query: typeof StatusQuery
  answer: typeof CertificationStatusPage
}>

export const listUnits = 'GET /api/units' as Endpoint<{ query: typeof PageQuery; answer: typeof UnitPage }>

export const createUnit = 'POST /api/units' as Endpoint<{ body: typeof UnitBody; answer: typeof Created }>

export const changeUnit = 'PATCH /api/units/:id' as Endpoint<{
  params: typeof IdParams
  body: typeof UnitChangeBody
  answer: typeof Created
}>

export const removeUnit = 'DELETE /api/units/:id' as Endpoint<{ params: typeof IdParams }>

export const getAsKnown = 'GET /api/soldiers/:id/as-known' as Endpoint<{
  params: typeof IdParams
  query: typeof AsKnownQuery
  answer: typeof AsKnown
}>

export const orderUnits = 'PUT /api/unit-order' as Endpoint<{
  body: typeof UnitOrderBody
  answer: typeof UnitOrderBody
}>

export const previewUnitMove = 'GET /api/units/:id/move' as Endpoint<{
  params: typeof IdParams
  query: typeof UnitMoveQuery
  answer: typeof UnitMovePreview
}>

export const moveUnit = 'POST /api/units/:id/move' as Endpoint<{
  params: typeof IdParams
  body: typeof UnitMoveBody
  answer: typeof UnitMoved
}>

export const getUnitLevels = 'GET /api/unit-levels' as Endpoint<{ answer: typeof UnitLevels }>

export const saveUnitLevels = 'PUT /api/unit-levels' as Endpoint<{
  body: typeof UnitLevelsBody
  answer: typeof UnitLevels
}>
