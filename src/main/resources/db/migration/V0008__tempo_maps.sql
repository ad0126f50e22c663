-- Bars and beats of a song as a MIDI file gave them for one bounce; the newest row is in force
-- unless it was taken away, older ones are kept.
create table tempo_map (
  id text primary key,
  song text not null references song (id),
  bounce text not null references bounce (id),
  given_by text not null references person (id),
  given_at timestamptz not null,
  at_seconds double precision not null,
  content text not null,
  removed_at timestamptz
);
create index tempo_map_song on tempo_map (song, given_at);
