CREATE INDEX `intake_posted` ON `intake` (`id`) WHERE kind = 'post';--> statement-breakpoint
CREATE INDEX `intake_not_posted` ON `intake` (`id`) WHERE kind <> 'post';