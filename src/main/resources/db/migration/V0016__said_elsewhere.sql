-- When a note was said elsewhere, as it was written there; and what was spoken instead of written.
alter table note add column said_when text;
alter table note add column memo_sha256 text;
alter table note add column memo_type text;
alter table note add column memo_seconds double precision;
-- What the engineer wrote down after listening; empty while it is still to be listened to.
alter table note add column memo_line text;
