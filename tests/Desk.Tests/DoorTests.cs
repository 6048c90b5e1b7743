using System.Net;

namespace Athwart.Desk.Tests;

public sealed class DoorTests
{
    [Fact]
    public async Task ABrowserWithoutALink_SeesNothing()
    {
        await using var desk = await RunningDesk.StartAsync();
        using var stranger = desk.Stranger();

        using var answer = await stranger.GetAsync(new Uri("/takes", UriKind.Relative), TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.Unauthorized, answer.StatusCode);
    }

    [Fact]
    public async Task ABrowserWithTheLink_SeesTheTakes()
    {
        await using var desk = await RunningDesk.StartAsync();
        using var visitor = await desk.VisitorAsync();

        var page = await visitor.GetStringAsync(new Uri("/takes", UriKind.Relative), TestContext.Current.CancellationToken);

        Assert.Contains("No take is in the library yet", page, StringComparison.Ordinal);
    }
}
