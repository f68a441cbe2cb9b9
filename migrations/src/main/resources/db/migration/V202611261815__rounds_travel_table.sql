-- How long it takes from one site to another, where somebody has said so; between all others it is guessed from the
-- straight line. Without seconds it cannot be driven at all.
create table travel_leg (
    from_site_id  uuid     not null references site (id),
    to_site_id    uuid     not null references site (id),
    seconds       integer  check (seconds between 0 and 86400),
    metres        integer  check (metres between 0 and 5000000),
    primary key (from_site_id, to_site_id),
    check (from_site_id <> to_site_id),
    check ((seconds is null) = (metres is null))
);
create index travel_leg_to_site_id on travel_leg (to_site_id);
