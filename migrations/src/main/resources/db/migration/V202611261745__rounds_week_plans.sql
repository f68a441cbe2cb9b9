-- A round that was promised as it is: no planning moves it.
alter table round add column locked boolean not null default false;

-- Plans for weeks of rounds. Each keeps what it came to; an accepted one has made the rounds.
create table week_plan (
    id            uuid             primary key,
    number        bigint           not null generated always as identity unique,
    first_day     date             not null,
    weeks         integer          not null check (weeks between 1 and 8),
    seed          bigint           not null,
    -- how many plans are tried, and how many were before it ended or was stopped; both and the seed repeat the search
    tries         bigint           not null check (tries between 1 and 100000000),
    tried         bigint           not null default 0,
    state         text             not null check (state in ('RUNNING', 'READY', 'ACCEPTED')),
    stop_asked    boolean          not null default false,
    unplaced      integer          not null default 0,
    cost          bigint           not null default 0,
    -- the rounds as they were when the search began; where others have changed them since, the plan cannot be accepted
    based_on      text             not null,
    made_by       uuid             references person (id),
    made_at       timestamptz      not null,
    accepted_by   uuid             references person (id),
    accepted_at   timestamptz
);
create index week_plan_made_by on week_plan (made_by);
create index week_plan_accepted_by on week_plan (accepted_by);

create table week_plan_stop (
    plan_id       uuid     not null references week_plan (id) on delete cascade,
    day           date     not null,
    van_id        uuid     not null references van (id),
    position      integer  not null,
    site_id       uuid     not null references site (id),
    starts_at     time     not null,
    departs_at    time     not null,
    visits        uuid[]   not null,
    primary key (plan_id, day, van_id, position)
);
create index week_plan_stop_van_id on week_plan_stop (van_id);
create index week_plan_stop_site_id on week_plan_stop (site_id);
