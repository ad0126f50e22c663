-- Songs, their form, and the audio that belongs to them.
create table song (
  id text primary key,
  version integer not null,
  project text not null references project (id),
  title text not null,
  tempo_bpm double precision,
  beats_per_bar integer,
  first_bar_seconds double precision,
  due date,
  created_at timestamptz not null,
  round integer not null,
  round_closed_at timestamptz
);
create index song_project on song (project);

-- One uploaded render of a song; the bytes lie in the store under their hash and are never altered.
create table bounce (
  id text primary key,
  version integer not null,
  song text not null references song (id),
  kind text not null,
  number integer not null,
  main text references bounce (id),
  uploader text not null references person (id),
  uploaded_at timestamptz not null,
  file_name text not null,
  bytes bigint not null,
  sha256 text not null,
  state text not null check (state in ('received', 'measuring', 'ready', 'failed')),
  progress double precision not null,
  problem_code text,
  problem_detail text,
  label text,
  message text,
  sent_at timestamptz,
  sent_by text references person (id),
  round integer,
  container text,
  codec text,
  sample_rate integer,
  bit_depth integer,
  significant_bits integer,
  channels integer,
  frames bigint,
  lossy boolean,
  sample_format text,
  pcm_sha256 text,
  defects text not null default '[]',
  unique (song, kind, number)
);
create index bounce_pcm on bounce (pcm_sha256);

create table stem (
  id text primary key,
  version integer not null,
  bounce text not null references bounce (id),
  element text not null,
  uploader text not null references person (id),
  uploaded_at timestamptz not null,
  file_name text not null,
  bytes bigint not null,
  sha256 text not null,
  state text not null check (state in ('received', 'measuring', 'ready', 'failed')),
  problem_code text,
  problem_detail text,
  sample_rate integer,
  channels integer,
  frames bigint,
  sample_format text,
  pcm_sha256 text,
  replaced_at timestamptz
);
create unique index stem_once on stem (bounce, element) where replaced_at is null;

-- The sections of a song as drawn on one bounce; the newest row is in force, older ones are kept.
create table form (
  id text primary key,
  song text not null references song (id),
  bounce text not null references bounce (id),
  drawn_by text not null references person (id),
  drawn_at timestamptz not null,
  sections text not null
);
create index form_song on form (song, drawn_at);

-- What comparing two bounces said, for one state of what went in (form, stems, method).
create table comparison (
  id text primary key,
  here text not null references bounce (id),
  there text not null references bounce (id),
  inputs text not null,
  state text not null check (state in ('waiting', 'ready', 'failed')),
  progress double precision not null,
  result text,
  created_at timestamptz not null,
  unique (here, there, inputs)
);

create table hearing (
  person text not null references person (id),
  bounce text not null references bounce (id),
  quality text not null check (quality in ('lossless', 'light')),
  first_at timestamptz not null,
  last_at timestamptz not null,
  primary key (person, bounce)
);
