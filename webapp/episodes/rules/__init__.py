"""Pure rules of episodes: drafting, what is held back, when one may go out."""
