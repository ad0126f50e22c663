-- The name whoever brought a mix had in mind for it; offered when it is sent, null where none was given.
alter table bounce add column proposed_label text;
alter table resumable_upload add column label text;
