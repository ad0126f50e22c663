-- What people said to a bounce, bound to the hash of its decoded audio. Append-only: a decision can
-- be ended, once, and nothing else of it ever changes.
create table approval (
  id text primary key,
  version integer not null,
  song text not null references song (id),
  bounce text not null references bounce (id),
  person text not null references person (id),
  identity text not null,
  decision text not null check
    (decision in ('approve', 'fine-by-me', 'not-yet', 'stop', 'finished')),
  comment text,
  pcm_sha256 text not null,
  heard text check (heard in ('lossless', 'light')),
  at timestamptz not null,
  despite text not null,
  reason text,
  once_done text not null,
  ended_at timestamptz,
  ended_by text references person (id),
  end_reason text
);
create index approval_song on approval (song, at);

-- A later bounce that an approval holds for as well, and what the comparison with the bounce that
-- was heard said. Identical audio holds without a row too; the row says when that was noticed.
create table approval_carried (
  approval text not null references approval (id),
  bounce text not null references bounce (id),
  likeness text not null,
  residual_db double precision,
  at timestamptz not null,
  primary key (approval, bounce)
);

create function keep_approvals() returns trigger language plpgsql as $$
begin
  if tg_op = 'UPDATE' then
    if old.ended_at is null and
       (to_jsonb(old) - 'version' - 'ended_at' - 'ended_by' - 'end_reason') =
       (to_jsonb(new) - 'version' - 'ended_at' - 'ended_by' - 'end_reason') then
      return new;
    end if;
  end if;
  raise exception 'approvals are append-only';
end
$$;
create trigger approvals_are_kept before update or delete on approval
  for each row execute function keep_approvals();
create trigger carried_approvals_are_kept before update or delete on approval_carried
  for each row execute function keep_approvals();
