namespace Athwart.Desk.Tests;

/// <summary>One desk for the tests of a class: starting one takes longer than most of them.</summary>
public sealed class DeskFixture : IAsyncLifetime
{
    internal RunningDesk Desk { get; private set; } = null!;

    public async ValueTask InitializeAsync() => Desk = await RunningDesk.StartAsync();

    public ValueTask DisposeAsync() => Desk.DisposeAsync();
}
