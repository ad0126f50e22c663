-- How the engineer arranged the list: the order of the rows, rows worked as one, what is new work.
alter table change add column list_rank integer;
alter table change add column joined text;
alter table change add column new_work text
  check (new_work in ('take', 'part', 'form', 'none'));
