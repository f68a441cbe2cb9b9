-- What was agreed for one water system: how often, what is done, how long it takes and what a visit costs.
create table agreement (
    id               uuid    primary key,
    code             text    not null unique check (code <> ''),
    water_system_id  uuid    not null references water_system (id),
    every_weeks      integer not null check (every_weeks between 1 and 52),
    -- two-letter days as in RFC 5545 (BYDAY), in the order of the week, such as MO,TH
    weekdays         text    not null check (weekdays ~ '^(MO|TU|WE|TH|FR|SA|SU)(,(MO|TU|WE|TH|FR|SA|SU)){0,6}$'),
    -- periods of so many weeks are counted from here; both days are part of the agreement
    valid_from       date    not null,
    valid_until      date,
    minutes          integer not null check (minutes between 1 and 1440),
    price            numeric not null check (price >= 0),
    -- the first day due visits are made for, and the last day up to which they have been made
    planned_from     date    not null,
    planned_until    date,
    version          integer not null,
    check (valid_until >= valid_from)
);
create index agreement_water_system_id on agreement (water_system_id);

create table agreement_task (
    agreement        uuid    not null references agreement (id),
    position         integer not null,
    kind             text    not null check (kind in ('WATER_CHANGE', 'TOP_UP', 'SOCK_SWAP', 'TEST', 'DOSE', 'MEDIA', 'WORK')),
    -- how much, in the unit beside it: %, L, mL, g, count
    amount           numeric check (amount > 0),
    unit             text    check (unit in ('%', 'L', 'mL', 'g', 'count')),
    -- what: a quantity to test, a product to dose, a medium, a piece of work
    item             text,
    size_mm          integer check (size_mm between 10 and 1000),
    interval_days    integer check (interval_days between 1 and 3660),
    primary key (agreement, position)
);

-- A due visit. It is made once for an agreement and day, however often due visits are asked for. It keeps its own copy
-- of what was agreed, so that a later change of the agreement leaves what was done as it was.
create table planned_visit (
    id               uuid    primary key,
    agreement_id     uuid    not null references agreement (id),
    water_system_id  uuid    not null references water_system (id),
    site_id          uuid    not null references site (id),
    due_on           date    not null,
    state            text    not null check (state in ('DUE', 'DONE', 'DROPPED', 'WITHDRAWN')),
    minutes          integer not null check (minutes between 1 and 1440),
    price            numeric not null check (price >= 0),
    tasks            jsonb   not null,
    done_on          date,
    dropped_reason   text,
    unique (agreement_id, due_on),
    check ((state = 'DONE') = (done_on is not null)),
    check ((state = 'DROPPED') = (dropped_reason is not null))
);
create index planned_visit_due_on on planned_visit (due_on);
create index planned_visit_done_on on planned_visit (done_on);
create index planned_visit_water_system_id on planned_visit (water_system_id);
create index planned_visit_site_id on planned_visit (site_id);
