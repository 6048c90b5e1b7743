using Athwart.Metering.Faults;
using Athwart.Metering.Slate;
using Athwart.Quantities;

namespace Athwart.Metering;

/// <summary>Puts the measures of a completed take together.</summary>
internal sealed class TakeSummary(PairTrack track, PairSpectrum? spectrum, SampleScale scale, double sideGain)
{
    private readonly PairSums _total = track.Complete();

    public TakeMeasures Measures(RoleMeasures mid, RoleMeasures side, RoleMeasures left, RoleMeasures right, (bool Identical, bool Opposite, SampleRuns Silence) pair, FaultMeasures? faults = null, SlateHead? slate = null) => new(track, _total, sideGain)
    {
        Scale = scale,
        Mid = Recorded(mid, _total.First, _total.FirstSquared, track.MidMeans, h => h.MidMid, h => h.Mid, track.MidEnergies, spectrum?.Mid, faults?.Cross, faults?.Cross?.QuietMid),
        Side = Recorded(side, _total.Second, _total.SecondSquared, track.SideMeans, h => h.SideSide, h => h.Side, track.SideEnergies, spectrum?.Side, faults?.Cross, faults?.Cross?.QuietSide),
        Left = Decoded(left, sideGain),
        Right = Decoded(right, -sideGain),
        AreIdentical = pair.Identical,
        AreOpposite = pair.Opposite,
        DigitalSilence = pair.Silence,
        Faults = faults,
        Slate = slate,
    };

    private RoleMeasures Recorded(RoleMeasures role, double sum, double squares, MeanSpread means, Func<HopSums, double> squareOf, Func<HopSums, double> totalOf, IReadOnlyList<float> energies, float[]? held, PairCross? cross, float[]? quiet)
    {
        var mean = _total.Frames > 0 ? sum / _total.Frames : 0;
        var (floor, loudest) = LevelPercentiles.Measure(Hops(squareOf), Hops(totalOf), track.Grid);
        var (highest, drop) = Band(held);
        return role with
        {
            Rms = Rms(squares),
            DcOffset = mean,
            DcUncertainty = means.StandardError,
            NoiseFloor = floor,
            NoiseFloorWeighted = LevelPercentiles.Measure(WeightedHops(energies), [], track.Grid).Floor,
            LoudestRms = loudest,
            HighestUsefulFrequency = highest,
            BandEdgeDrop = drop,
            HighestSoundFrequency = held is null || cross is null || quiet is null ? default
                : SoundBand.Find(held, quiet, spectrum!.Transformed, cross.Groups, drop.Value > 0 ? highest.Value : 0, track.Grid.SampleRateHertz),
        };
    }

    private RoleMeasures Decoded(RoleMeasures role, double gain)
    {
        var mean = _total.Frames > 0 ? (_total.First + (gain * _total.Second)) / _total.Frames : 0;
        var (floor, loudest) = LevelPercentiles.Measure(Hops(h => Math.Max(0, h.MidMid + (2 * gain * h.MidSide) + (gain * gain * h.SideSide))), Hops(h => h.Mid + (gain * h.Side)), track.Grid);
        return role with
        {
            Rms = Rms(Math.Max(0, _total.FirstSquared + (2 * gain * _total.Product) + (gain * gain * _total.SecondSquared))),
            DcOffset = mean,
            NoiseFloor = floor,
            LoudestRms = loudest,
        };
    }

    private DecibelsFullScale Rms(double squares) => _total.Frames > 0 ? DecibelsFullScale.FromMeanSquare(squares / _total.Frames) : DecibelsFullScale.Silence;

    private double[] Hops(Func<HopSums, double> of) => [.. track.Hops.Select(of)];

    private static double[] WeightedHops(IReadOnlyList<float> energies)
    {
        var hops = new double[energies.Count / TenMillisecondGrid.HopSteps];
        for (var i = 0; i < hops.Length * TenMillisecondGrid.HopSteps; i++)
            hops[i / TenMillisecondGrid.HopSteps] += energies[i];
        return hops;
    }

    private (Hertz Highest, Decibels Drop) Band(float[]? held) => held is null
        ? default
        : UsefulBand.Find(held, Math.Max(spectrum!.Mid.Max(), spectrum.Side.Max()), spectrum.Transformed, track.Grid.SampleRateHertz, scale);
}
