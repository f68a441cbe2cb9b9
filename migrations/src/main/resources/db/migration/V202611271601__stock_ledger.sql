-- Where everything is and where it went: each movement takes from one account what it gives to another.
create table stock_lot (
    id           uuid    primary key,
    item_id      uuid    not null references stock_item (id),
    -- as printed on the package
    number       text    not null check (number <> ''),
    received_on  date    not null,
    -- the last day on which it is good
    expires_on   date,
    version      integer not null,
    check (expires_on >= received_on),
    unique (item_id, id)
);
create unique index stock_lot_number on stock_lot (item_id, lower(number));

create table stock_movement (
    id            uuid        primary key,
    -- in the order in which they were booked
    sequence      bigint      not null unique generated always as identity,
    item_id       uuid        not null references stock_item (id),
    lot_id        uuid,
    -- in the item's unit
    amount        numeric     not null check (amount > 0 and amount <= 1000000),
    from_account  text        not null check (from_account <> ''),
    -- which van, site, system or depot it is
    from_place    uuid,
    to_account    text        not null check (to_account <> ''),
    to_place      uuid,
    reason        text        not null check (reason <> ''),
    note          text,
    -- what it was booked for
    source_kind   text,
    source_id     text,
    -- more was taken than was there, since what is there was not booked yet
    runs_ahead    boolean     not null,
    moved_at      timestamptz not null,
    recorded_at   timestamptz not null,
    person_id     uuid        references person (id),
    foreign key (item_id, lot_id) references stock_lot (item_id, id),
    check ((source_kind is null) = (source_id is null)),
    check (from_account <> to_account or from_place is distinct from to_place)
);
create index stock_movement_item on stock_movement (item_id, sequence);
create index stock_movement_lot on stock_movement (item_id, lot_id);
create index stock_movement_source on stock_movement (source_kind, source_id);
create index stock_movement_from on stock_movement (from_account, from_place);
create index stock_movement_to on stock_movement (to_account, to_place);
create index stock_movement_person_id on stock_movement (person_id);

-- The sum of the movements, kept with them; over all accounts of an item it is 0.
create table stock_balance (
    item_id  uuid    not null references stock_item (id),
    lot_id   uuid,
    account  text    not null check (account <> ''),
    place    uuid,
    amount   numeric not null,
    foreign key (item_id, lot_id) references stock_lot (item_id, id)
);
create unique index stock_balance_key on stock_balance (
    item_id,
    account,
    coalesce(place, '00000000-0000-0000-0000-000000000000'::uuid),
    coalesce(lot_id, '00000000-0000-0000-0000-000000000000'::uuid)
);
create index stock_balance_account on stock_balance (account, place);
create index stock_balance_lot on stock_balance (item_id, lot_id);

-- What was counted until now lies at the depot.
insert into stock_movement (
    id, item_id, amount, from_account, to_account, reason, runs_ahead, moved_at, recorded_at)
select gen_random_uuid(), id, on_hand, 'OPENING', 'DEPOT', 'OPENING', false, counted_at, counted_at
from stock_item
where on_hand > 0
order by counted_at, id;

insert into stock_balance (item_id, account, amount)
select item_id, to_account, amount from stock_movement
union all
select item_id, from_account, -amount from stock_movement;

alter table stock_item drop column on_hand;
