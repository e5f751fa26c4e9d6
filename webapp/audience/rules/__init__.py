"""Pure rules of what is public: the frozen snapshot, its text, how an episode is shown."""
