using Rootgap.Standards;

namespace Rootgap.Tests.Checks.CodeData;

/// <summary>What the service and the test say, against each other and against the metal.</summary>
public class ServiceAgainstLineTest
{
    private static string Served(string service, string test = "", string material = "A106-B", string list = "") => Desk.Drawing("{go: north, by: 1000, to: flange}",
        $"service: {{ {service} }}\n{(test.Length > 0 ? $"test: {{ {test} }}\n" : "")}{list}", $"size: 6, schedule: 40, class: 300, material: {material}");

    // IAPWS R7-97(2012), table 35: 372.755919 K at 0.1 MPa, 453.035632 K at 1 MPa, 584.149488 K at 10 MPa.
    [Theory]
    [InlineData(1, 372.755919)]
    [InlineData(10, 453.035632)]
    [InlineData(100, 584.149488)]
    public void Steam_condenses_where_the_release_says(double bar, double kelvin) => Assert.Equal(kelvin - 273.15, Fluids.SteamCondenses(bar), 1e-6);

    // By the same formula steam of 16 bar on the gauge, 17.013 in all, condenses at 204.3 C; ten degrees are left for a design pressure that is over the steam's.
    [Theory]
    [InlineData("saturated steam", "210 C", "")]
    [InlineData("saturated steam", "195 C", "")]
    [InlineData("saturated steam", "194 C", "warn")]
    [InlineData("saturated steam", "21 C", "warn")]
    [InlineData("steam condensate", "180 C", "")]
    [InlineData("water", "180 C", "")]
    public void Steam_is_not_colder_than_it_boils(string fluid, string temperature, string told) => Desk.Tells("steam-too-cold", told, Served($"fluid: {fluid}, design pressure: 16 bar, design temperature: {temperature}"));

    // Common practice, the table fluids.
    [Theory]
    [InlineData("fluid: caustic soda 40 %, design temperature: 80 C, heat treatment: none", "A106-B", "warn")]
    [InlineData("fluid: caustic soda 40 %, design temperature: 80 C, heat treatment: stress relieved", "A106-B", "")]
    [InlineData("fluid: caustic soda 40 %, design temperature: 40 C", "A106-B", "")]
    [InlineData("fluid: lean amine, design temperature: 40 C", "A106-B", "warn")]
    [InlineData("fluid: lean amine, design temperature: 40 C", "A312-TP316L", "")]
    [InlineData("fluid: hydrochloric acid 30 %, design temperature: 30 C", "A106-B", "warn")]
    [InlineData("fluid: sea water, design temperature: 30 C", "A106-B", "warn")]
    [InlineData("fluid: sea water, design temperature: 30 C", "A790-S31803", "")]
    [InlineData("fluid: sea water, design temperature: 30 C, lining: cement 12 mm", "A106-B", "")]
    [InlineData("fluid: sea water, design temperature: 30 C, lining: none", "A106-B", "warn")]
    [InlineData("fluid: sea water, design temperature: 30 C, pipe class: L2 rubber-lined", "A106-B", "")]
    [InlineData("fluid: hydrogen, design temperature: 200 C", "A106-B", "")]
    [InlineData("fluid: hydrogen, design temperature: 210 C", "A106-B", "warn")]
    [InlineData("fluid: examined water, design temperature: 30 C", "A106-B", "")]
    public void A_fluid_that_attacks_its_metal_is_told(string service, string material, string told) => Desk.Tells("fluid-and-metal", told, Served(service, material: material));

    [Theory]
    [InlineData("ammonia", "B62", "warn")]
    [InlineData("ammonia", "A105", "")]
    [InlineData("water", "B62", "")]
    public void A_material_that_the_fluid_spoils_is_told(string fluid, string material, string told) =>
        Desk.Tells("fluid-and-metal", told, Served($"fluid: {fluid}", list: $"materials:\n  - {{item: 1, what: valve ball flanged, size: 6, class: 300, material: {material}, quantity: 1}}"));

    [Theory]
    [InlineData("15 bar", "15 bar", "")]
    [InlineData("15 bar", "217.6 psi", "")]
    [InlineData("15 bar", "25 bar", "warn")]
    [InlineData("18 psi", "18 bar", "warn")]
    public void Service_and_test_ask_for_one_pressure(string service, string test, string told) => Desk.Tells("line-data-contradicts", told, Served($"test pressure: {service}", $"pressure: {test}"));

    [Theory]
    [InlineData("hold: 30 min", "")]
    [InlineData("hold: 24 h", "")]
    [InlineData("hold: 120 h", "warn")]
    [InlineData("hold: 120", "warn")]
    [InlineData("pressure: 0.2 bar", "")]
    [InlineData("pressure: 20 mbar", "warn")]
    public void A_test_s_time_has_a_unit_and_an_end_and_its_pressure_is_one(string test, string told) => Desk.Tells("test-figure-odd", told, Served("fluid: water", test));

    [Theory]
    [InlineData("B31.3", "")]
    [InlineData("B31.33", "warn")]
    [InlineData("B31.9", "")]
    [InlineData("EN 13480", "")]
    public void A_code_is_one_there_is(string code, string told) => Desk.Tells("line-data-contradicts", told, Served($"code: {code}"));

    [Theory]
    [InlineData("insulation: none, tracing: electric", "warn")]
    [InlineData("insulation: none, tracing: none", "")]
    [InlineData("insulation: none, design temperature: 100 C", "")]
    [InlineData("insulation: none, design temperature: 101 C", "note")]
    [InlineData("insulation: none, design temperature: 201 C", "warn")]
    public void What_is_traced_or_hot_is_insulated(string service, string told) => Desk.Tells("insulation-incomplete", told, Served(service));

    [Theory]
    [InlineData("insulation: hot mineral wool, insulation thickness: 50, design temperature: 4 C", "warn")]
    [InlineData("insulation: hot mineral wool, insulation thickness: 50, design temperature: 6 C", "")]
    [InlineData("insulation: hot mineral wool, insulation thickness: 50, design temperature: -20 to 90 C", "")]
    [InlineData("insulation: cold PIR, insulation thickness: 50, design temperature: 61 C", "warn")]
    [InlineData("insulation: cold PIR, insulation thickness: 50, design temperature: 59 C", "")]
    [InlineData("insulation: cold PIR, insulation thickness: 50, design temperature: -30 to 90 C", "")]
    [InlineData("insulation: cold PIR, insulation thickness: 50, tracing: electric", "warn")]
    [InlineData("insulation: cold PIR, insulation thickness: 50, tracing: none", "")]
    [InlineData("paint: 'system 3, up to 120 C', design temperature: 130 C", "warn")]
    [InlineData("paint: 'system 3, up to 120 C', design temperature: 120 C", "")]
    [InlineData("paint: 'system 3, max. 250 F', design temperature: 130 C", "warn")]
    [InlineData("paint: 'RAL 9006, 120 um', design temperature: 130 C", "")]
    [InlineData("heat treatment: 62 C 1 h", "warn")]
    [InlineData("heat treatment: 620 C 1 h", "")]
    [InlineData("heat treatment: 6200 C", "warn")]
    [InlineData("heat treatment: none above 10 C", "")]
    public void Insulation_paint_and_heat_treatment_go_with_the_temperature(string service, string told) => Desk.Tells("warmth-contradicts", told, Served(service));

    [Theory]
    [InlineData("line number: 6\"-CW-204-H, insulation: none", "note")]
    [InlineData("line number: 6\"-CW-204-H, insulation: hot mineral wool", "")]
    [InlineData("line number: 6\"-CW-204-C, insulation: hot mineral wool", "note")]
    [InlineData("line number: 6\"-CW-204-ET, insulation: mineral wool, tracing: steam", "note")]
    [InlineData("line number: 6\"-CW-204-ET, insulation: mineral wool, tracing: electric", "")]
    [InlineData("line number: 6\"-CW-204-ST, insulation: mineral wool", "note")]
    [InlineData("line number: 6\"-CW-204-A1, insulation: none", "")]
    public void Letters_behind_the_line_number_go_with_the_line_data(string service, string told) => Desk.Tells("line-data-contradicts", told, Served(service));

    [Theory]
    [InlineData("", "", "warn")]
    [InlineData("A106-B", "", "")]
    [InlineData("", "materials: [{item: 1, what: pipe, size: 6, schedule: 40, material: A106-B, quantity: 1 m}]", "")]
    public void A_line_that_bears_pressure_has_a_material(string material, string list, string told) => Desk.Tells("service-incomplete", told,
        Desk.Drawing("{go: north, by: 1000, to: flange}", "service: {fluid: water, design pressure: 5 bar, design temperature: 30 C, code: B31.3}\n" + list, "size: 6, schedule: 40, class: 150" + (material.Length > 0 ? ", material: " + material : "")));

    // Offices write a vacuum, a range, a share and a "none" in more than one way.
    [Theory]
    [InlineData("design pressure: 0 bar abs")]
    [InlineData("design pressure: 50 mbar abs")]
    [InlineData("design pressure: 100 mbar(a)")]
    [InlineData("design pressure: 12 bar / full vacuum")]
    [InlineData("design temperature: -29 to 90 C")]
    [InlineData("design temperature: -29 C / 90 C")]
    [InlineData("examination: RT 100 %")]
    public void What_offices_write_is_read(string service) => Desk.IsSilent("service-figure-unread", Served(service));

    [Theory]
    [InlineData("12 bar / full vacuum", "19.2 bar", "")]
    [InlineData("60 bar / full vacuum", "90 bar", "warn")]
    public void Of_pressure_and_vacuum_the_pressure_counts(string design, string test, string told) => Desk.Tells("design-pressure-over-class", told, Served($"design pressure: {design}, test pressure: {test}, design temperature: 50 C"));

    [Theory]
    [InlineData("-29 to 90 C", "")]
    [InlineData("-40 to 90 C", "warn")]
    [InlineData("-40 C to 90 C", "warn")]
    public void Of_a_range_the_cold_end_counts_for_the_cold(string range, string told) => Desk.Tells("cold-service-material", told, Served($"design temperature: {range}"));

    [Theory]
    [InlineData("n/a")]
    [InlineData("nil")]
    [InlineData("NR")]
    [InlineData("without")]
    public void No_heat_treatment_is_written_in_many_ways(string none) => Desk.IsSilent("heat-treatment-soft-parts", Desk.Drawing("{go: north, by: 1000, to: valve, kind: ball, ends: socket, face to face: 120}\n{go: north, by: 1000, to: open}",
        $"service: {{heat treatment: {none}}}", "size: 1, schedule: 80, class: 150, ends: socket"));
}
