-- How long animals of a kind stay in quarantine, where that is not as long as all others.
create table quarantine_period (
    id uuid primary key,
    -- word of the names of the animals that it is meant for
    kind text not null unique check (kind ~ '^[[:alpha:]][[:alpha:] -]{1,58}$'),
    days integer not null check (days between 1 and 365),
    why text not null,
    version integer not null
);

-- The system that the animals came from or go to, while it stays without fish.
create table quarantine_display (
    water_system_id uuid primary key references water_system (id),
    display_id uuid not null references water_system (id),
    -- the first day without fish; null where it is not left to lie fallow
    fallow_since date,
    fallow_days integer check (fallow_days between 1 and 365),
    check ((fallow_since is null) = (fallow_days is null)),
    check (display_id <> water_system_id)
);

create index quarantine_display_display_id on quarantine_display (display_id);
