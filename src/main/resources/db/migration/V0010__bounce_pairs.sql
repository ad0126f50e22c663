-- A stereo bounce made by the server from the left and the right channel in two uploaded files.
alter table bounce add column pair_left text references bounce (id);
alter table bounce add column pair_right text references bounce (id);
