// Loaded before the program: whatever reaches for the network is written down, and fails.
const { appendFileSync } = require('node:fs');
const dgram = require('node:dgram');
const dns = require('node:dns');
const net = require('node:net');

function refused(what) {
  return (...args) => {
    appendFileSync(process.env.SETPROOF_NETWORK_LOG, `${what} ${JSON.stringify(args[0])}\n`);
    throw new Error(`${what} was called`);
  };
}

net.Socket.prototype.connect = refused('connect');
net.Server.prototype.listen = refused('listen');
dgram.Socket.prototype.send = refused('send');
dgram.Socket.prototype.bind = refused('bind');
for (const name of ['lookup', 'resolve', 'resolve4', 'resolve6']) {
  dns[name] = refused(`dns.${name}`);
  dns.promises[name] = refused(`dns.promises.${name}`);
}
globalThis.fetch = refused('fetch');
