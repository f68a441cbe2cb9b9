-- What is on the shelf: enough to know what things weigh and how many there are.
create table stock_item (
    id               uuid    primary key,
    kind             text    not null check (kind in ('SALT', 'SOCK', 'MEDIA', 'DOSE', 'TEST_KIT')),
    name             text    not null check (name <> ''),
    size_mm          integer check (size_mm between 10 and 1000),
    unit             text    not null check (unit <> ''),
    -- kg for one unit
    unit_mass_kg     double precision not null check (unit_mass_kg >= 0 and unit_mass_kg <= 1000),
    on_hand          numeric not null check (on_hand >= 0),
    counted_at       timestamptz not null,
    version          integer not null
);
create unique index stock_item_key on stock_item (kind, name, coalesce(size_mm, 0));
