-- What tells whether a part lies where its bounce lies; null where the file does not say.
alter table stem add column silent boolean;
alter table stem add column session_frame bigint;
alter table bounce add column session_frame bigint;
