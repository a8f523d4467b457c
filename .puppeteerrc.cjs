// The browser is found on the machine or installed by .setup/browser.mjs; npm install never downloads one.
module.exports = { skipDownload: true };
