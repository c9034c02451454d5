"""The site while one writes: what changed is drawn anew, and what is found stands on the page that it is about."""
