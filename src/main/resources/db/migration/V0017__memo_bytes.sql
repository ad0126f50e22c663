-- Memos count among what a project's files take.
alter table note add column memo_bytes bigint;
