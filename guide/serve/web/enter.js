// Goes on to the bare address: the secret leaves the address bar and the history.
location.replace("/");
