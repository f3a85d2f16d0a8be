/** The tables as the newest migration leaves them, for the query builder. What each is for stands in the migrations. */
import type { ColumnType, Generated } from 'kysely';

/** libsql takes views of bytes and gives back plain buffers. */
type Bytes = ColumnType<ArrayBuffer, Uint8Array, Uint8Array>;

export type JobTable = {
  seq: Generated<number>;
  id: string;
  name: string;
  created_at: string;
  deleted_at: string | null;
  demo: string | null;
  head: string;
};
export type RevisionTable = {
  seq: Generated<number>;
  id: string;
  job_id: string;
  digest: string;
  author: string;
  at: string;
  label: string | null;
};
export type RevisionParentTable = {
  revision_id: string;
  place: number;
  parent_id: string;
};
export type DocumentTable = {
  digest: string;
  content: Bytes;
};
export type SessionValueTable = {
  job_id: string;
  key: string;
  content: Bytes;
};
export type SettingTable = {
  key: string;
  value: string;
};
export type Tables = {
  job: JobTable;
  revision: RevisionTable;
  revision_parent: RevisionParentTable;
  document: DocumentTable;
  session_value: SessionValueTable;
  setting: SettingTable;
};
