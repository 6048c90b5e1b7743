using Athwart.Jobs.Shape;

namespace Athwart.Desk.Sound;

/// <summary>A take with its treatment, open for listening; requests take turns, and it closes only between them.</summary>
/// <param name="version">Stands for the treatment: another treatment has another.</param>
/// <param name="shaped">The take and its treatment, settled.</param>
internal sealed class TreatedTake(string version, ShapedTake shaped) : IDisposable
{
    private readonly Lock _turn = new();
    private Preview? _preview;
    private bool _closed;

    public string Version => version;

    public ShapedTake Shaped => shaped;

    /// <summary>Uses the preview; false when it was closed meanwhile.</summary>
    public bool TryUse(Action<Preview> use)
    {
        lock (_turn)
        {
            if (_closed)
                return false;
            use(_preview ??= Open());
            return true;
        }
    }

    /// <summary>One of its own, for what takes long.</summary>
    public Preview Open() => new(shaped.Take, shaped.Roles, shaped.Treated.Steps, shaped.SideLevel.AmplitudeRatio);

    public void Dispose()
    {
        lock (_turn)
        {
            _closed = true;
            _preview?.Dispose();
        }
    }
}
