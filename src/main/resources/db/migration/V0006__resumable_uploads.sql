-- Uploads by the tus protocol that have begun. How far one has come is the length of its file.
create table resumable_upload (
  id text primary key,
  version integer not null,
  person text not null references person (id),
  song text not null references song (id),
  file_name text not null,
  kind text not null,
  main text references bounce (id),
  element text,
  bounce text references bounce (id),
  bytes bigint not null,
  created_at timestamptz not null,
  made_bounce text references bounce (id),
  made_stem text references stem (id)
);
