-- What an upload that was broken off at any instant needs to be gone on with: until when it is kept,
-- from where on a piece with a checksum is not yet verified, and the hash of what has come whole but
-- is not yet a bounce or a part.
alter table resumable_upload
  add column metadata text not null default '',
  add column expires_at timestamptz,
  add column unchecked_from bigint,
  add column sha256 text;
update resumable_upload set expires_at = created_at + interval '7 days';
alter table resumable_upload alter column expires_at set not null;
create index resumable_upload_person on resumable_upload (person);
create index resumable_upload_song on resumable_upload (song);
