namespace Athwart.Scenes.Numbers;

/// <summary>Normal noise through a chain of filters, scaled to a stated expected power.</summary>
internal sealed class ShapedNoise
{
    private const double SettleSeconds = 0.5;
    private readonly FilterChain _chain;
    private readonly Chance _chance;
    private readonly double _scale;

    /// <param name="chance">Where the numbers come from.</param>
    /// <param name="chain">The filters; the object keeps them.</param>
    /// <param name="rate">Sample rate in hertz.</param>
    /// <param name="rms">The expected root mean square.</param>
    public ShapedNoise(Chance chance, FilterChain chain, double rate, double rms)
    {
        (_chain, _chance) = (chain, chance);
        _scale = rms / Math.Sqrt(chain.WhitePowerGain(rate));
        for (var i = 0; i < SettleSeconds * rate; i++)
            Next();
    }

    /// <summary>The next sample.</summary>
    public double Next() => _chain.Next(_chance.Normal()) * _scale;

    /// <summary>The next samples.</summary>
    public double[] Take(int count)
    {
        var samples = new double[count];
        foreach (ref var sample in samples.AsSpan())
            sample = Next();
        return samples;
    }
}
