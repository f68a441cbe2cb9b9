-- That a task is due oftener than the visits come and somebody left it so: for which gaps that holds, who said so and when.
create table interval_gap_kept (
    agreement_id  uuid         primary key references agreement (id),
    -- the gaps of then; others are asked about again
    gaps          text         not null check (gaps <> ''),
    kept_by       uuid         references person (id),
    kept_at       timestamptz  not null
);
create index interval_gap_kept_kept_by on interval_gap_kept (kept_by);
