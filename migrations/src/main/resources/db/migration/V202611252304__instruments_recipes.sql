-- What a made-up standard was weighed from; its value and uncertainty follow from it. Never changed.
create table standard_recipe (
    standard_id         uuid    primary key references standard (id) on delete cascade,
    solute              text    not null check (solute in ('SODIUM_CHLORIDE', 'SEA_SALT')),
    solute_g            numeric not null check (solute_g > 0),
    -- share of the solute in what was weighed, in percent, and half-width of what is known of it
    purity_percent      numeric not null check (purity_percent between 50 and 100),
    purity_give_or_take numeric not null check (purity_give_or_take between 0 and 20),
    water_g             numeric not null check (water_g > 0),
    balance_id          uuid    not null references instrument (id),
    -- where the water was weighed on another one
    water_balance_id    uuid    references instrument (id),
    made_on             date    not null
);
create index standard_recipe_balance_id on standard_recipe (balance_id);
create index standard_recipe_water_balance_id on standard_recipe (water_balance_id);
