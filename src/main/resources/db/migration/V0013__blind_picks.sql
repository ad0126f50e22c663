-- Two mixes offered at one place without their names, and what each person picked, once.
create table blind_pick (
  id text primary key,
  song text not null references song (id),
  one text not null references bounce (id),
  two text not null references bounce (id),
  -- On the first mix.
  from_seconds double precision not null,
  to_seconds double precision not null,
  place text not null,
  -- The two that contradict each other; both empty where it belongs to none.
  change_one text references change (id),
  change_two text references change (id),
  offered_by text not null references person (id),
  offered_at timestamptz not null,
  ended_at timestamptz
);
create index blind_pick_song on blind_pick (song, offered_at);

-- One person's ears: an address that says nothing, and the random number their order comes from.
create table blind_ear (
  id text primary key,
  pick text not null references blind_pick (id),
  person text not null references person (id),
  seed bigint not null,
  first_heard_at timestamptz,
  second_heard_at timestamptz,
  choice text check (choice in ('first', 'second', 'no-difference')),
  picked_at timestamptz,
  unique (pick, person)
);
