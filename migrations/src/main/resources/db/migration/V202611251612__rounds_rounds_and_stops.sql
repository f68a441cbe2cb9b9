create table round (
    id               uuid    primary key,
    code             text    not null unique check (code <> ''),
    service_date     date    not null,
    van_id           uuid    not null references van (id),
    technician_id    uuid    references person (id),
    leaves_at        time    not null,
    -- whether the order is proven best, found by a rule of thumb, or was set by hand
    method           text    not null check (method in ('EXACT', 'LOCAL_SEARCH', 'GIVEN')),
    proven_best      boolean not null,
    driving_seconds  integer not null check (driving_seconds >= 0),
    distance_m       integer not null check (distance_m >= 0),
    returns_at       time    not null,
    version          integer not null,
    unique (service_date, van_id)
);
create index round_van_id on round (van_id);
create index round_technician_id on round (technician_id);

create table round_stop (
    id               uuid    primary key,
    round_id         uuid    not null references round (id) on delete cascade,
    position         integer not null,
    site_id          uuid    not null references site (id),
    arrives_at       time    not null,
    starts_at        time    not null,
    departs_at       time    not null,
    late_minutes     integer not null check (late_minutes >= 0),
    -- once the work there has begun, the stop keeps its place in the round
    started_at       timestamptz,
    finished_at      timestamptz,
    unique (round_id, position) deferrable initially deferred,
    unique (round_id, site_id),
    check (finished_at is null or started_at is not null)
);
create index round_stop_site_id on round_stop (site_id);

-- Which due visits a stop is for. One round at a time holds a due visit; a round of the past lets go of what was not
-- done when a later round takes it over.
create table round_stop_visit (
    stop_id          uuid    not null references round_stop (id) on delete cascade,
    planned_visit_id uuid    not null references planned_visit (id),
    held             boolean not null,
    primary key (stop_id, planned_visit_id)
);
create unique index round_stop_visit_held on round_stop_visit (planned_visit_id) where held;
