-- Each container for water as one real thing. A number is never given a second time, not even that of one out of use, so that
-- what held waste or a treatment cannot come back as a clean one.
create table water_container (
    id             uuid    primary key,
    -- as painted on it
    number         text    not null check (number <> '' and length(number) <= 20 and position(':' in number) = 0),
    -- where it belongs: one van, or the pool of a depot
    van_id         uuid    references van (id),
    depot_id       uuid    references depot (id),
    role           text    not null check (role in ('FRESH', 'SALT', 'WASTE', 'TREATMENT')),
    size_l         double precision not null check (size_l > 0 and size_l <= 1000),
    empty_kg       double precision not null check (empty_kg >= 0 and empty_kg <= 200),
    -- filled and emptied where it stands in the van, never lifted
    pumped         boolean not null,
    -- how high above the ground it stands while it is filled
    stands_cm      double precision not null check (stands_cm >= 0 and stands_cm <= 120),
    out_of_use     boolean not null,
    version        integer not null,
    constraint water_container_one_place check ((van_id is null) <> (depot_id is null))
);
create unique index water_container_number on water_container (lower(number));
create index water_container_van_id on water_container (van_id);
create index water_container_depot_id on water_container (depot_id);
