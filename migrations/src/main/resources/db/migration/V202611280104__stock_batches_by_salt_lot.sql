-- Batches are looked for by the lot of their salt, as people write it, and by the last time that a lot was used.
create index water_batch_salt_lot on water_batch (lower(trim(salt_lot)), made_at) where salt_lot is not null;
