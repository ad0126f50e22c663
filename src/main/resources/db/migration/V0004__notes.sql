-- Notes as written, what was drawn from them, and what had to be asked back. Nothing is deleted.
create table note (
  id text primary key,
  version integer not null,
  song text not null references song (id),
  bounce text not null references bounce (id),
  author text not null references person (id),
  written_by text not null references person (id),
  text text not null,
  from_seconds double precision,
  to_seconds double precision,
  engineer_only boolean not null,
  at timestamptz not null,
  -- Empty while the band gathers its notes and this one has not been handed over.
  sent_at timestamptz
);
create index note_song on note (song, at);

create table change (
  id text primary key,
  version integer not null,
  song text not null references song (id),
  note text not null references note (id),
  asker text not null references person (id),
  -- The bounce whose time line the place is on.
  bounce text not null references bounce (id),
  position integer not null,
  element text not null,
  aspect text not null,
  direction text not null,
  amount text,
  place text not null,
  text text not null,
  span_start integer not null,
  span_end integer not null,
  state text not null check
    (state in ('unclear', 'asked', 'done', 'good', 'left', 'withdrawn', 'followed')),
  answer text check
    (answer in ('as-asked', 'differently', 'tried', 'cannot', 'need-files', 'new-work')),
  reason text,
  settled_by text references person (id),
  done_in text references bounce (id),
  follows text references change (id),
  round integer not null,
  asked_at timestamptz not null,
  moved_at timestamptz not null
);
create index change_song on change (song, asked_at);
create index change_note on change (note);

create table keep (
  id text primary key,
  version integer not null,
  song text not null references song (id),
  note text not null references note (id),
  position integer not null,
  element text not null,
  place text not null,
  text text not null,
  withdrawn_at timestamptz,
  withdrawn_by text references person (id)
);
create index keep_song on keep (song);

create table question (
  id text primary key,
  version integer not null,
  song text not null references song (id),
  note text not null references note (id),
  position integer not null,
  text text not null,
  choices text not null,
  asked_at timestamptz not null,
  answer text,
  skipped boolean not null,
  answered_by text references person (id),
  answered_at timestamptz
);
create index question_song on question (song, asked_at);

create table question_change (
  question text not null references question (id),
  position integer not null,
  change text not null references change (id),
  primary key (question, position)
);
