"""Pure rules of accounts: waiting after wrong passwords, what a password has to be, words for a device."""
