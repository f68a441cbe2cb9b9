-- What one unit of an item cost on the moving average of everything booked in with a price; null until something was.
alter table stock_item add column unit_value numeric check (unit_value >= 0);
