-- What happened, append-only, one chain a song. The clock row is locked while a song is written to,
-- so that sequence and chain have no holes and no forks.
create table song_clock (
  song text primary key references song (id),
  seq bigint not null,
  head text not null
);

create table history (
  song text not null references song (id),
  seq bigint not null,
  at timestamptz not null,
  by text not null references person (id),
  type text not null,
  act text not null,
  subject text not null,
  detail text not null,
  bounce text references bounce (id),
  change text,
  -- Who may see the row: everybody who may hear the bounce; see the note; be an engineer.
  gate_bounce text references bounce (id),
  gate_note text,
  engineers_only boolean not null,
  previous_hash text not null,
  hash text not null,
  primary key (song, seq)
);

create function refuse_rewriting() returns trigger language plpgsql as $$
begin
  raise exception 'the history is append-only';
end
$$;
create trigger history_is_append_only before update or delete or truncate on history
  for each statement execute function refuse_rewriting();
