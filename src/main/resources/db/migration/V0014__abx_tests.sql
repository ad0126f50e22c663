-- One engineer's listening test: which mix X is in each trial comes from the seed.
create table abx_test (
  id text primary key,
  song text not null references song (id),
  person text not null references person (id),
  a text not null references bounce (id),
  b text not null references bounce (id),
  -- On A.
  from_seconds double precision not null,
  to_seconds double precision not null,
  place text not null,
  trials integer not null check (trials between 5 and 50),
  seed bigint not null,
  answers text not null,
  begun_at timestamptz not null,
  broken_off_at timestamptz
);
create index abx_test_person on abx_test (song, person, begun_at);
