-- Places marked inside a bounce's file, as a JSON list; null as long as nobody has looked.
alter table bounce add column markers text;
