using Athwart.Quantities;
using Athwart.Scenes.Rigs;

namespace Athwart.Scenes.Rendering;

/// <summary>Where a microphone is and how it hears a direction.</summary>
internal sealed class Capsule
{
    private readonly Place _axis;
    private readonly double _omniShare;
    private readonly double _beamHertz;
    private readonly bool _isSide;

    public Capsule(Rig rig, ChannelRole role)
    {
        _isSide = role == ChannelRole.Side;
        Role = role;
        Place = _isSide ? rig.Place + new Place(rig.SideForwardMetres, 0, 0) : rig.Place;
        _axis = Place.Polar(_isSide ? rig.SideAzimuthDegrees : rig.MidAzimuthDegrees, 1);
        _omniShare = _isSide ? 0 : rig.MidOmniShare;
        _beamHertz = rig.Channel(role).BeamHertz;
    }

    public ChannelRole Role { get; }

    public Place Place { get; }

    public bool Beams => double.IsFinite(_beamHertz);

    /// <summary>The pattern's value for a unit vector towards the source.</summary>
    public double Gain(Place towards) => _omniShare + ((1 - _omniShare) * _axis.Dot(towards));

    /// <summary>The weight a of y += a·(x − y) for the highs lost off the axis; 1 loses nothing.</summary>
    public double BeamWeight(Place towards, double rate)
    {
        var cosine = _axis.Dot(towards);
        var off = _isSide ? 1 - Math.Abs(cosine) : (1 - cosine) / 2;
        return off <= 1e-12 || !Beams ? 1 : 1 - Math.Exp(-2 * Math.PI * _beamHertz / off / rate);
    }
}
