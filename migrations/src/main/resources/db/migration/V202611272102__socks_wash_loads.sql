-- A load of socks in the machine. What is in it stands in the ledger, on the account that bears its id.
create table sock_wash (
    id          uuid        primary key,
    -- from sick systems, washed and disinfected by themselves
    apart       boolean     not null,
    started_at  timestamptz not null,
    started_by  uuid        references person (id),
    -- out of the machine, and clean
    washed_at   timestamptz,
    washed_by   uuid        references person (id),
    -- dry, and on the shelf
    dry_at      timestamptz,
    dry_by      uuid        references person (id),
    check (dry_at is null or washed_at is not null)
);
create index sock_wash_open on sock_wash (started_at) where dry_at is null;
create index sock_wash_started_by on sock_wash (started_by);
create index sock_wash_washed_by on sock_wash (washed_by);
create index sock_wash_dry_by on sock_wash (dry_by);

-- How many socks of an item that are still in use were washed so often; together as many as the ledger has at all places.
create table sock_age (
    item_id  uuid    not null references stock_item (id),
    washes   integer not null check (washes >= 0),
    count    integer not null check (count > 0),
    primary key (item_id, washes)
);

-- After so many washes a sock is due to be retired.
alter table sock_washing add column most_washes integer not null default 24 check (most_washes between 1 and 1000);
alter table sock_washing alter column most_washes drop default;
