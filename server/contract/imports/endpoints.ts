import type { FileAnswer, IdParams, PageQuery } from '../common.ts'
import type { Endpoint } from '../endpoint.ts'
import type {
  Import,
  ImportColumns,
  ImportColumnsBody,
  ImportPage,
  ImportPlan,
  ImportRowPage,
  ImportRowQuery,
  SendImportQuery,
  StoreBody,
  TemplateParams,
  TemplateQuery,
} from './imports.ts'

export const getImportTemplate = 'GET /api/import-templates/:kind' as Endpoint<{
  params: typeof TemplateParams
  query: typeof TemplateQuery
  answer: typeof FileAnswer
}>

export const listImports = 'GET /api/imports' as Endpoint<{ query: typeof PageQuery; answer: typeof ImportPage }>

export const getImport = 'GET /api/imports/:id' as Endpoint<{ params: typeof IdParams; answer: typeof Import }>

export const suggestImportColumns = 'POST /api/imports/:id/columns' as Endpoint<{
  params: typeof IdParams
  body: typeof ImportColumnsBody
  answer: typeof ImportColumns
}>

export const checkImport = 'POST /api/imports/:id/check' as Endpoint<{
  params: typeof IdParams
  body: typeof ImportPlan
  answer: typeof Import
}>

export const listImportRows = 'GET /api/imports/:id/rows' as Endpoint<{
  params: typeof IdParams
  query: typeof ImportRowQuery
  answer: typeof ImportRowPage
}>

export const storeImport = 'POST /api/imports/:id/store' as Endpoint<{
  params: typeof IdParams
  body: typeof StoreBody
  answer: typeof Import
}>

export const cancelImport = 'POST /api/imports/:id/cancel' as Endpoint<{
  params: typeof IdParams
  answer: typeof Import
}>

export const removeImport = 'DELETE /api/imports/:id' as Endpoint<{ params: typeof IdParams }>

export const getRefusedRows = 'GET /api/imports/:id/refused' as Endpoint<{
  params: typeof IdParams
  answer: typeof FileAnswer
}>

export const sendImport = 'POST /api/imports' as Endpoint<{ query: typeof SendImportQuery; answer: typeof Import }>
