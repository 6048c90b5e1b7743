using Athwart.Quantities;
using Athwart.Scenes.Numbers;
using Athwart.Scenes.Sources;
using Athwart.Scenes.Surroundings;

namespace Athwart.Scenes.Rendering;

/// <summary>Adds the pressure of sources and their images, as each capsule's pattern takes it.</summary>
internal sealed class SourceField(WorkingTake take)
{
    private const int SegmentFrames = 32;
    private const double Inaudible = 1e-6;
    private readonly Scene _scene = take.Scene;
    private readonly Capsule _mid = new(take.Scene.Rig, ChannelRole.Mid);
    private readonly Capsule _side = new(take.Scene.Rig, ChannelRole.Side);

    public void AddAll()
    {
        for (var i = 0; i < _scene.Sources.Count; i++)
            Add(_scene.Sources[i], take.Chance("source", i));
    }

    private void Add(SoundSource source, Chance chance)
    {
        var images = (_scene.Reflectors?.Images() ?? [MirrorImage.Itself]).Where(image => image.Gain > Inaudible).ToArray();
        var start = -take.Lead / (double)take.Rate;
        var before = LongestDelay(source, images) + ((FractionalDelay.Taps + 8.0) / take.Rate);
        var grid = new SignalGrid(take.Rate, start - before, take.Mid.Length + (int)Math.Ceiling(before * take.Rate) + FractionalDelay.Taps);
        var signal = source.Signal.Render(grid, chance);
        Levels.Scale(signal, Levels.Pascal(source.LevelDecibels));
        foreach (var image in images)
        {
            AddWay(new(source.Trajectory, image, _mid, _scene), _mid, signal, grid, source.Trajectory.IsFixed);
            AddWay(new(source.Trajectory, image, _side, _scene), _side, signal, grid, source.Trajectory.IsFixed);
        }
    }

    private double LongestDelay(SoundSource source, MirrorImage[] images)
    {
        const int Looks = 64;
        double longest = 0;
        var moments = source.Trajectory.IsFixed ? 1 : Looks + 1;
        for (var i = 0; i < moments; i++)
        {
            var seconds = (i * (double)take.Mid.Length / Looks / take.Rate) - 0.2;
            longest = images.Max(image => Math.Max(longest, (image.Of(source.Trajectory.At(seconds)) - _mid.Place).Length));
        }

        return ((longest * 1.1) + 1) / _scene.SpeedOfSound;
    }

    private void AddWay(SoundWay way, Capsule capsule, double[] signal, SignalGrid grid, bool isFixed)
    {
        var plane = take.Plane(capsule.Role);
        var beam = new BeamFilter(capsule.Beams);
        // Frame i of the plane lies at i + offset samples of the signal, less its delay.
        var offset = (-take.Lead / (double)take.Rate - grid.FirstSeconds) * grid.Rate;
        var start = way.At(SecondsAt(0));
        for (var i = 0; i < plane.Length; i += SegmentFrames)
        {
            var end = isFixed ? start : way.At(SecondsAt(i + SegmentFrames));
            Segment(plane.AsSpan(i, Math.Min(SegmentFrames, plane.Length - i)), signal, i + offset, start, end, ref beam);
            start = end;
        }
    }

    private double SecondsAt(int index) => (index - take.Lead) / (double)take.Rate;

    private void Segment(Span<double> plane, double[] signal, double place, Hearing start, Hearing end, ref BeamFilter beam)
    {
        for (var i = 0; i < plane.Length; i++)
        {
            var part = (double)i / SegmentFrames;
            var delay = (start.DelaySeconds + (part * (end.DelaySeconds - start.DelaySeconds))) * take.Rate;
            var gain = start.Gain + (part * (end.Gain - start.Gain));
            var value = gain * FractionalDelay.At(signal, place + i - delay);
            plane[i] += beam.Next(value, start.BeamWeight);
        }
    }

    /// <summary>A first-order low pass whose corner follows the direction.</summary>
    private struct BeamFilter(bool on)
    {
        private double _state;

        public double Next(double value, double weight)
        {
            if (!on)
                return value;
            _state += weight * (value - _state);
            return _state;
        }
    }
}
