-- How many litres of the site's own RO/DI water the van may take along at a visit; absent where the client allows none.
alter table site
    add column refill_litres double precision check (refill_litres > 0 and refill_litres <= 1000),
    add constraint site_refill_own_water check (refill_litres is null or (own_ro_di and client_id is not null));
