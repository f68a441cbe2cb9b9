-- How often a password was guessed wrong, by what it was guessed for and from where; several instances count together.
create table password_guess (
    -- SHA-256 of a name or an address: a password that slips into the field of the name is not kept.
    who        bytea       primary key check (length(who) = 32),
    misses     integer     not null check (misses > 0),
    last_at    timestamptz not null,
    wait_until timestamptz not null
);

create index password_guess_last_at on password_guess (last_at);
