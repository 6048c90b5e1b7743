namespace Athwart.Desk.Browser.Tests;

public sealed class ShellTests
{
    [Fact]
    public async Task Chromium_Starts()
    {
        await using var chromium = await Chromium.StartAsync();

        Assert.NotEmpty(chromium.Browser.Version);
    }
}
