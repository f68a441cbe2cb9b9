create table client (
    id               uuid    primary key,
    code             text    not null unique check (code <> ''),
    name             text    not null check (name <> ''),
    billing_address  text,
    email            text,
    phone            text,
    notes            text,
    version          integer not null
);

create table contact (
    id               uuid    primary key,
    code             text    not null unique check (code <> ''),
    client_id        uuid    not null references client (id),
    name             text    not null check (name <> ''),
    role             text,
    phone            text,
    email            text,
    receives_reports boolean not null,
    version          integer not null
);
create index contact_client_id on contact (client_id);

-- A site belongs to a client, or is the place of one of the business's own depots.
create table site (
    id               uuid    primary key,
    code             text    not null unique check (code <> ''),
    client_id        uuid    references client (id),
    depot_id         uuid    unique references depot (id),
    name             text    not null check (name <> ''),
    street           text,
    postal_code      text,
    locality         text,
    latitude         double precision not null check (latitude between -90 and 90),
    longitude        double precision not null check (longitude between -180 and 180),
    access_notes     text,
    -- hours when somebody is there; a stop is planned inside them
    attended_from    time,
    attended_until   time,
    own_tap          boolean not null,
    own_drain        boolean not null,
    own_ro_di        boolean not null,
    mixing_barrel    boolean not null,
    version          integer not null,
    check ((client_id is null) <> (depot_id is null)),
    check ((attended_from is null) = (attended_until is null)),
    check (attended_from < attended_until)
);
create index site_client_id on site (client_id);
