-- Who things are bought from, how, and what was ordered and came.
create table supplier (
    id                 uuid    primary key,
    name               text    not null check (name <> ''),
    email              text,
    phone              text,
    -- what the supplier knows the business by
    customer_number    text,
    -- days from the order to the delivery: mean and standard deviation
    lead_days          double precision not null check (lead_days >= 0 and lead_days <= 365),
    lead_sd_days       double precision not null check (lead_sd_days >= 0 and lead_sd_days <= 365),
    -- days between two orders
    order_every_days   integer not null check (order_every_days between 1 and 365),
    version            integer not null
);
create unique index supplier_name on supplier (lower(name));

create table stock_supply (
    item_id        uuid    primary key references stock_item (id),
    supplier_id    uuid    not null references supplier (id),
    -- what the supplier calls it
    supplier_code  text,
    -- as bought, such as a bucket
    pack_name      text    not null check (pack_name <> ''),
    -- units of the item in one pack
    pack_amount    numeric not null check (pack_amount > 0 and pack_amount <= 100000),
    pack_price     numeric check (pack_price >= 0 and pack_price <= 1000000),
    -- probability of not running out until the next delivery
    service_level  double precision not null check (service_level >= 0.5 and service_level < 1),
    -- units a week, said by somebody as long as the ledger tells too little
    weekly_use     numeric check (weekly_use >= 0 and weekly_use <= 1000000),
    version        integer not null
);
create index stock_supply_supplier_id on stock_supply (supplier_id);

create table supplier_order (
    id           uuid    primary key,
    number       integer not null unique check (number >= 1),
    supplier_id  uuid    not null references supplier (id),
    ordered_on   date    not null,
    note         text,
    person_id    uuid    references person (id)
);
create sequence supplier_order_number start with 1;
create index supplier_order_supplier_id on supplier_order (supplier_id);
create index supplier_order_person_id on supplier_order (person_id);

create table supplier_order_line (
    id             uuid    primary key,
    order_id       uuid    not null references supplier_order (id),
    item_id        uuid    not null references stock_item (id),
    packs          integer not null check (packs between 1 and 10000),
    supplier_code  text,
    pack_name      text    not null,
    pack_amount    numeric not null check (pack_amount > 0),
    pack_price     numeric check (pack_price >= 0),
    unique (order_id, item_id)
);
create index supplier_order_line_item_id on supplier_order_line (item_id);

create table delivery (
    id           uuid    primary key,
    order_id     uuid    not null references supplier_order (id),
    supplier_id  uuid    not null references supplier (id),
    -- as printed on the delivery note
    note_number  text    not null check (note_number <> ''),
    received_on  date    not null,
    recorded_at  timestamptz not null,
    person_id    uuid    references person (id)
);
create unique index delivery_note on delivery (supplier_id, lower(note_number));
create index delivery_order_id on delivery (order_id);
create index delivery_person_id on delivery (person_id);

create table delivery_line (
    delivery_id    uuid    not null references delivery (id),
    order_line_id  uuid    not null references supplier_order_line (id),
    packs          integer not null check (packs between 1 and 10000),
    primary key (delivery_id, order_line_id)
);
create index delivery_line_order_line_id on delivery_line (order_line_id);
