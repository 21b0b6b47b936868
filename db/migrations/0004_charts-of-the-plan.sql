ALTER TABLE `feature` ADD `temperature_uncertainty` real;--> statement-breakpoint
ALTER TABLE `feature` ADD `expansion_uncertainty` real;--> statement-breakpoint
ALTER TABLE `feature` ADD `also_watch` text;--> statement-breakpoint
ALTER TABLE `feature` ADD `count_chart` text;--> statement-breakpoint
ALTER TABLE `feature` ADD `counted_on` real;--> statement-breakpoint
ALTER TABLE `limits` ADD `between_lots` real;